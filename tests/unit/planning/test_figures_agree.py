"""Figures of one sheet that are reckoned from one another agree as they are printed."""

from __future__ import annotations

import re

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.figures import at_most, read_as, rounded_down, shown
from builder.planning.job.stored_charge import feeding_charge, stored_charge
from builder.planning.plan import Reason
from builder.rendering.pages.job_tune import tune_view

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]


def parts_of(printed: str) -> float:
    """Half of what the last printed digit stands for."""
    _, _, decimals = printed.partition(".")
    return 0.5 * 10.0 ** -len(decimals)


def reasons(name: str) -> list[Reason]:
    pack = shipped_pack(name)
    return [*pack.because, *(pack.power.because if pack.power else ())]


@pytest.mark.parametrize("name", JOBS)
def test_the_share_and_the_label_make_the_charge_that_is_printed(name: str) -> None:
    for charge in (
        stored_charge(shipped_parts(name), HOUSE),
        feeding_charge(shipped_parts(name), HOUSE),
    ):
        if charge is None:
            continue
        (share,) = re.findall(r"at rest ([\d.]+)% full", charge.words)
        reckoned = charge.aged_ah * float(share) / 100
        assert charge.held_words == f"{shown(rounded_down(reckoned, 1))} Ah"
        assert charge.held_ah - charge.aged_ah * 0.001 - 0.1 <= reckoned <= charge.held_ah + 1e-9
        said = [each.because for each in reasons(name) if charge.words in each.because]
        assert said and all(f"{charge.words}: {charge.held_words}, of which" in x for x in said)


@pytest.mark.parametrize("name", JOBS)
def test_a_gain_set_with_the_correction_off_stays_under_its_limit(name: str) -> None:
    """Set to what is printed for it off, and switched on, it reads no more than is printed."""
    pack = shipped_pack(name)
    for row in pack.tune:
        off, line = row.correction_off_tone_v_rms, row.correction_off_line_v_rms
        if off is None or line is None:
            continue
        printed_off, printed_on = at_most(off, "V"), at_most(row.tone_v_rms, "V")
        ratio = row.tone_v_rms / off
        assert float(printed_off) * ratio <= row.tone_v_rms + 1e-9
        assert abs(float(printed_off) * ratio - float(printed_on)) <= 3 * parts_of("0.0") * ratio
        said = tune_view(row, pack.tune).correction
        assert (
            f"the meter {printed_off} V" in said
            and f"the line reads {read_as(line, 'V')} V" in said
        )
        chain = next(each for each in pack.levels if each.speaker == row.speaker)
        assert f"off it reads {printed_off} V" in chain.tone_note
        (read,) = [test for test in pack.tests if test.id.endswith("line-level")
                   and f"line output for {row.speaker}" in test.what]  # fmt: skip
        assert f"off it reads {read_as(line, 'V')} V" in read.what
        set_to = chain.loaded_v_rms or chain.converter_target_v_rms
        assert set_to is not None and line / set_to == pytest.approx(off / row.tone_v_rms)
        assert read.low is not None and line < read.low <= set_to, (
            "with the correction off the line fails"
        )

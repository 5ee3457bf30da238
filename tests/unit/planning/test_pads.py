"""Pads of a job: when there is one, how large, and that every sheet knows of it."""

from __future__ import annotations

import pytest
from pack_jobs import CORNERS, chain, said
from plan_cars import channel, doors_car, retained
from test_pack_details import loud_car, sub_pack

from builder.planning.levels.level_pad import pad_resistor_ohm, padded_margin_db
from builder.rendering.pages.plan_phrases import feed_view


def test_a_thin_margin_gets_a_pad_as_one_above_the_limit_does() -> None:
    link = chain(sub_pack(loud_car(17.3)), "subwoofer")
    # 1.26 dB straight in; 1 kΩ leaves 2.84 dB, 1.2 kΩ leaves 3.13 dB.
    assert (link.pad_ohm_per_leg, round(link.converter_margin_db, 2)) == (1200, 3.13)


@pytest.mark.parametrize("ohm", [1000, 1200, 1500])
def test_a_resistor_that_leaves_the_wanted_margin_to_a_hair_is_enough(ohm: float) -> None:
    left_db = padded_margin_db(17.3, 20.0, 10_000.0, ohm)
    assert pad_resistor_ohm(17.3, 20.0, 10_000.0, left_db) == ohm
    assert pad_resistor_ohm(17.3, 20.0, 10_000.0, left_db + 1e-6) > ohm


def test_without_pads_a_thin_margin_is_said_and_left() -> None:
    pack = sub_pack(loud_car(17.3), pad="none")
    link = chain(pack, "subwoofer")
    assert (link.pad_ohm_per_leg, round(link.converter_margin_db, 2)) == (None, 1.26)
    assert "the input has little room" in said(pack)
    assert not any("pad" in part.note for part in pack.parts)


def test_without_pads_a_source_over_the_limit_is_refused() -> None:
    pack = sub_pack(loud_car(24.5), pad="none")
    assert pack.kind == "no_plan" and "overdriven" in said(pack)


@pytest.mark.parametrize(
    ("ohm", "margin_db", "verdict"), [(470, 2.9988, "thin"), (560, 3.1406, "fine")]
)
def test_ohms_of_the_job_are_computed_and_judged_as_given(
    ohm: float, margin_db: float, verdict: str
) -> None:
    volts = (60 * 4) ** 0.5
    pack = sub_pack(loud_car(volts), pad=ohm)
    check = pack.plan.levels[0]
    assert (check.pad_ohm_per_leg, check.verdict) == (ohm, verdict)
    # 20·log10(20/15.492 · (10 kΩ + 2·R)/10 kΩ)
    assert check.converter_margin_db == pytest.approx(margin_db, abs=5e-5)
    passes = 10_000 / (10_000 + 2 * ohm)
    assert chain(pack, "subwoofer").converter_gain == pytest.approx(4.5 / (volts * passes))


def test_a_pad_of_the_job_that_is_not_enough_for_the_limit_is_refused() -> None:
    pack = sub_pack(loud_car(24.5), pad=100)
    assert pack.kind == "no_plan" and "behind 100 Ω in each leg" in said(pack)


def test_a_pad_stands_on_every_sheet() -> None:
    pack = sub_pack(loud_car(17.3))
    tests = {test.id: test for test in pack.tests}
    behind = 17.3 * 10 / 12.4
    for side in ("rear-left", "rear-right"):
        for sign in "+−":
            name = f"pad of {side.replace('-', ' ')} signal {sign} (1.2 kΩ 0.25 W)"
            lines = [line for step in pack.steps for line in step.lines if name in line]
            assert len(lines) == 2  # to the jacket's conductor, and into the terminal
            assert [joint.meets.count(name) for joint in pack.joints].count(1) == 2
            assert any("resistor 1.2 kΩ 0.25 W" in row.parts for row in pack.wiring)
        ohms, level = tests[f"{side}-pad-ohms"], tests[f"{side}-padded-level"]
        assert (ohms.low, ohms.high) == (pytest.approx(1080), pytest.approx(1320))
        assert (level.low, level.high) == (pytest.approx(behind * 0.9), pytest.approx(behind * 1.1))
    (part,) = [part for part in pack.parts if part.note.startswith("pad of ")]
    assert (part.item, part.quantity) == ("resistor 1.2 kΩ 0.25 W", 4)
    assert {feed.pad_ohm_per_leg for feed in pack.plan.feeds} == {1200}
    assert {feed_view(feed).treatment.rpartition("; ")[2] for feed in pack.plan.feeds} == {
        "1.2 kΩ in this leg"
    }
    assert {level.pad_ohm_per_leg for level in pack.plan.levels} == {1200}


def test_pairs_heard_together_get_the_same_pad() -> None:
    carried = [
        channel(name, level={"clean_max_v_rms": 17.3 if name == "rear-left" else 8.0})
        for name in CORNERS
    ]
    pack = sub_pack(doors_car([retained(9)], channels=carried))
    # The pad of the louder side alone would shift the balance by 1.9 dB.
    assert {level.pad_ohm_per_leg for level in pack.plan.levels} == {1200}


def test_a_bias_that_has_to_wake_a_converter_is_read_behind_the_pad() -> None:
    carried = [channel(name, level={"clean_max_v_rms": 17.3}) for name in CORNERS]
    woken = sub_pack(doors_car([], channels=carried))
    assert (woken.kind, woken.plan.turn_on.kind) == ("tap_plan", "offset_wake")
    (test,) = [each for each in woken.tests if each.id.endswith("padded-bias")]
    assert (test.id, test.low, test.state) == ("rear-left-padded-bias", 2.0, "radio_on_zero")
    wired = sub_pack(loud_car(17.3))
    assert not any(each.id.endswith("padded-bias") for each in wired.tests)

"""A subwoofer's gain counts what the radio really gives at the tone, correction as it is used."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from pack_jobs import CORNERS, HOUSE, chain, settled, shipped_parts
from plan_cars import channel, converter, doors_car, retained
from test_pack_details import sub_pack

from builder.figures import at_most
from builder.model.parts import Gain
from builder.model.sound import BassPoint
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.job.make_pack import make_pack
from builder.planning.levels.bass_at_tone import bass_at_tone, loss_at_step_db
from builder.planning.levels.line_gain import choose_gain
from builder.planning.levels.line_limits import LineDemand
from builder.planning.work_pack import WorkPack

VECTORS = Path(__file__).parents[2] / "vectors" / "bass_at_tone.json"
GROUPS = {g["name"]: g for g in json.loads(VECTORS.read_text(encoding="utf-8"))["groups"]}
LOUD = {"clean_max_v_rms": 10.0, "at_volume_step": 30}


def table(*points: tuple[int, float], hz: float = 40) -> list[dict[str, float]]:
    return [{"volume_step": step, "hz": hz, "db": db} for step, db in points]


def bass_pack(
    rows: list[dict[str, float]], correction: Any = "no", output: float = 4.5
) -> WorkPack:
    carried = [channel(name, level=LOUD, bass_table=rows) for name in CORNERS]
    device = converter("cvn-2a", bass_rolloff_correction=correction, output={"max_v_rms": output})
    return sub_pack(doors_car([retained(9)], channels=carried), device)


TWELVE = {"max_db": 12, "hz": 40}


@pytest.mark.parametrize(
    ("source", "bass_db", "given_back", "target", "at_tone", "gain", "off_line", "off_share"),
    GROUPS["correction_on"]["cases"],
)
def test_the_worked_radio(
    source: float,
    bass_db: float,
    given_back: float,
    target: float,
    at_tone: float,
    gain: float,
    off_line: float,
    off_share: float,
) -> None:
    pack = bass_pack(table((10, 0), (30, bass_db)), {"max_db": given_back, "hz": 40})
    link = chain(pack, "subwoofer")
    assert (link.source_v_rms, link.converter_target_v_rms) == (source, target)
    assert link.tone_source_v_rms == pytest.approx(at_tone, abs=0.0005)
    assert link.correction == "on"
    assert link.converter_gain == pytest.approx(gain, abs=0.0005)
    assert link.correction_off_line_v_rms == pytest.approx(off_line, abs=0.0005)
    assert link.correction_off_tone_v_rms is not None
    assert link.correction_off_tone_v_rms / link.tone_v_rms == pytest.approx(off_share, abs=5e-5)


def test_every_sheet_says_that_the_correction_is_on_and_what_is_read_with_it_off() -> None:
    pack = bass_pack(table((10, 0), (30, -9)), TWELVE)
    tests = {test.id: test for test in pack.tests}
    line, gain = tests["subwoofer-line-level"], tests["subwoofer-gain"]
    assert "40 Hz tone with the converter's correction on (off it reads 1.42 V)" in line.what
    link = chain(pack, "subwoofer")
    assert f"off it reads {at_most(link.tone_v_rms * 0.35481, 'V')} V" in gain.what
    # Set with it off and then switched on: 10^(9/20).
    assert "2.82 times its volts" in gain.why
    (flat,) = [step.text for step in pack.steps if "all gains at their lowest" in step.text]
    assert "bass correction on for subwoofer" in flat and "correction off" not in flat


def test_a_radio_that_loses_bass_does_not_get_the_gain_of_a_flat_one() -> None:
    flat = chain(bass_pack(table((10, 0), (30, 0))), "subwoofer")
    poor = chain(bass_pack(table((10, -11), (30, -13))), "subwoofer")
    assert (flat.converter_gain, flat.converter_target_v_rms) == (pytest.approx(0.4), 4.0)
    assert poor.correction == "off" and poor.converter_gain is not None
    # 10·10^(−13/20) = 2.239 V at the tone; what is not lost above it may reach the output's 4.5 V,
    # so the tone itself gets 0.9·4.5·0.2239 = 0.907 V, in steps of 0.1 V 0.9 V.
    assert poor.tone_source_v_rms == pytest.approx(2.2387, abs=5e-5)
    assert poor.converter_target_v_rms == 0.9
    assert poor.converter_gain == pytest.approx(0.9 / 2.2387, rel=1e-4)
    assert "while the tone is at 1.01 V: 0.9 V" in poor.because
    roomy = chain(bass_pack(table((10, -11), (30, -13)), output=20), "subwoofer")
    # The amplifier's 5 V limit it: 0.9·min(20·0.2239, 5) = 4.03 V.
    assert roomy.converter_target_v_rms == 4.0
    assert roomy.converter_gain is not None and roomy.converter_gain > 1.7


def test_a_fixed_gain_that_clips_above_the_tone_is_flagged() -> None:
    fixed = Gain(kind="fixed", value=0.5)
    demand = LineDemand(2.2387, fixed, 4.5, 0.2, 5.0, full_band_ratio=0.22387)
    # 0.5·2.2387 = 1.12 V at the tone are 5 V above it.
    (flag,) = choose_gain(demand, HOUSE).flags
    assert (flag.kind, flag.value) == ("line_above_output", pytest.approx(5.0))
    assert "5.00 V above the tone is more than the 4.5 V" in flag.says


def test_what_a_correction_cannot_give_back_is_counted() -> None:
    link = chain(bass_pack(table((10, -10), (30, -12.5)), {"max_db": 10, "hz": 40}), "subwoofer")
    assert link.correction == "on"
    # 2.5 dB are left: the gain acts on 10·10^(−2.5/20) = 7.499 V.
    assert link.converter_target_v_rms is not None and link.converter_gain is not None
    assert link.converter_target_v_rms / link.converter_gain == pytest.approx(7.4989, abs=5e-5)


@pytest.mark.parametrize(("step", "db"), [(5, 1), (10, 1), (20, -2), (30, -5), (40, -5)])
def test_the_loss_is_that_of_the_volume_step_used(step: float, db: float) -> None:
    points = [
        BassPoint(volume_step=10, hz=40, db=1),
        BassPoint(volume_step=30, hz=40, db=-5),
    ]
    assert loss_at_step_db(points, step) == pytest.approx(db)


def test_a_table_of_other_frequencies_says_nothing_of_the_tone() -> None:
    car = doors_car([retained(9)], channels=[channel("sub", bass_table=table((30, -9), hz=100))])
    assert bass_at_tone(car.channel("sub"), converter(), (40.0, 50.0), corrects=True) is None


def test_bass_that_is_louder_than_the_rest_is_the_loudest_clean_level_itself() -> None:
    car = doors_car([retained(9)], channels=[channel("sub", bass_table=table((30, 4)))])
    found = bass_at_tone(car.channel("sub"), converter(), (40.0, 50.0), corrects=True)
    assert found is not None
    assert (found.source_db, found.residual_db, found.corrected) == (4, 0, False)
    link = chain(bass_pack(table((10, 6), (30, 4)), TWELVE), "subwoofer")
    assert (link.tone_source_v_rms, link.correction) == (10, "off")
    assert link.converter_gain == pytest.approx(0.4)


def test_a_bass_pair_is_expected_as_loud_as_it_is_at_its_tone() -> None:
    pack = make_pack(settled(shipped_parts("ullin-split-fronts")), defaults=HOUSE)
    (level,) = [test for test in pack.tests if test.id == "sub-pair-level"]
    # 10 V, 1.2 dB less at 40 Hz at the loudest clean step.
    assert level.high == pytest.approx(1.1 * 10 * 10 ** (-1.2 / 20))


FIXED = {"max_db": 12, "hz": 40, "follows_level": "no"}


@pytest.mark.parametrize(("loss", "kind"), [(-2.9, "tap_plan"), (-3.1, "no_plan")])
def test_a_fixed_boost_for_a_loss_that_changes_with_volume_is_refused(
    loss: float, kind: str
) -> None:
    pack = bass_pack(table((10, 0), (30, loss)), FIXED)
    assert pack.kind == kind
    refused = [reason.because for reason in pack.refusals]
    if kind == "no_plan":
        assert any("fixed: right at one volume step" in because for because in refused)
        assert any("whose correction follows the level" in because for because in refused)


def test_a_fixed_boost_is_refused_in_a_plan_without_a_job_too() -> None:
    rows = table((10, 0), (30, -6))
    carried = [channel(name, level=LOUD, bass_table=rows) for name in CORNERS]
    vehicle = doors_car([retained(9)], channels=carried)
    fixed = make_plan(vehicle, converter("cvn-2a", bass_rolloff_correction=FIXED), defaults=HOUSE)
    assert fixed.kind == "no_plan" and "is fixed" in fixed.refusals[0].because
    following = converter("cvn-2a", bass_rolloff_correction=TWELVE)
    assert make_plan(vehicle, following, defaults=HOUSE).kind == "tap_plan"

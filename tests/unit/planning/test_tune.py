"""The tune sheet: starting values, what the job states instead, the order that keeps speakers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import sqrt

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts
from scipy import signal

from builder.model.job import Box, SetFilters
from builder.model.parts.filters import Filters, FilterSpan
from builder.model.sound import SpeakerChannel
from builder.planning.bay.ids import speakable
from builder.planning.bay.tune_tests import AGAIN
from builder.planning.bay.tune_words import again_limits_v, tune_words
from builder.planning.job.make_pack import make_pack
from builder.planning.levels.bass_at_tone import BassAtTone, loudest_at_tone
from builder.planning.levels.filter_loss import FilterSet, butterworth, linkwitz_riley, passed
from builder.planning.levels.starting_filters import high_pass, low_pass
from builder.planning.sheet_rows import Step
from builder.planning.tune_sheet import TuneRow
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pages.bay_lines import bay_band
from builder.rendering.pages.job_tune import tune_view

TAP_PLANS = tuple(name for name in SHIPPED if shipped_pack(name).kind == "tap_plan")
TWO_COILS = "tansy-two-coils"


def made(parts: JobParts) -> WorkPack:
    return make_pack(parts, defaults=HOUSE)


def row_of(pack: WorkPack, speaker: str = "subwoofer") -> TuneRow:
    return next(row for row in pack.tune if row.speaker == speaker)


def changed(name: str, at: int = 0, **changes: object) -> JobParts:
    parts = shipped_parts(name)
    speakers = list(parts.job.speakers)
    speakers[at] = replace(speakers[at], **changes)  # type: ignore[arg-type]
    return replace(parts, job=replace(parts.job, speakers=tuple(speakers)))


def with_filters(parts: JobParts, filters: Filters) -> JobParts:
    amplifiers = {
        name: replace(each, channels=tuple(replace(g, filters=filters) for g in each.channels))
        for name, each in parts.amplifiers.items()
    }
    return replace(parts, amplifiers=amplifiers)


def steep(slopes: tuple[int, ...] = (12, 24), **spans: FilterSpan | None) -> Filters:
    wide = FilterSpan(from_hz=10, to_hz=20000)
    return Filters(
        **{"high_pass": wide, "low_pass": wide, "subsonic": wide, **spans},  # type: ignore[arg-type]
        slopes_db_per_octave=slopes,
    )


@pytest.mark.parametrize("name", TAP_PLANS)
def test_every_channel_has_a_row_and_every_value_its_source(name: str) -> None:
    pack = shipped_pack(name)
    assert [row.speaker for row in pack.tune] == [gain.speaker for gain in pack.gains]
    for row in pack.tune:
        said = " ".join(each.decision for each in row.because)
        for word in ("high-pass", "low-pass", "slope", "polarity"):
            assert word in said, row
        assert "subsonic" in said or any("subsonic" in asked for asked in row.asked)
        assert all(each.source for each in row.because)
        assert 0 < row.again_least_v_rms <= row.again_most_v_rms <= row.tone_v_rms


@pytest.mark.parametrize("name", TAP_PLANS)
def test_gains_then_filters_then_speakers_then_loud(name: str) -> None:
    pack = shipped_pack(name)
    gains = {test.id for test in pack.tests if test.turn == "gain"}
    again = {test.id for test in pack.tests if test.turn == "again"}
    sought: tuple[Callable[[Step], bool], ...] = (
        lambda step: "filters flat" in step.text,
        lambda step: "21 W lamp" in step.text,
        lambda step: bool(gains & {*step.tests}),
        lambda step: "set the filters" in step.text,
        _puts_speakers_on,
        lambda step: bool(again & {*step.tests}),
    )
    order = [next(at for at, step in enumerate(pack.steps) if found(step)) for found in sought]
    assert order == sorted(order)
    tests = [test.id for test in pack.tests]
    set_at = next(at for at, name in enumerate(tests) if name.endswith("-again"))
    for at, test in enumerate(pack.tests):
        if test.id.endswith("-gain"):
            assert at < set_at
        if "clean music" in test.what or test.turn in ("again", "loud", "sound"):
            assert at >= set_at, test.id


def _puts_speakers_on(step: Step) -> bool:
    """By a plug, or by the screws of an amplifier that has none; never while it is built."""
    return step.phase == "bench" and (
        "then its speaker plug into it" in step.text or "amplifier outputs" in step.text
    )


def test_the_box_gives_the_subsonic_corner() -> None:
    """Half an octave under the tuning: 36/√2."""
    assert row_of(shipped_pack(TWO_COILS)).subsonic_hz == pytest.approx(36 / sqrt(2), abs=0.05)
    for box, hz in ((Box(kind="sealed"), None), (Box(kind="free_air"), 30.0)):
        assert row_of(made(changed(TWO_COILS, box=box))).subsonic_hz == hz


@pytest.mark.parametrize("box", [None, Box(kind="vented", tuned_hz=None)])
def test_an_unknown_box_is_asked_for_and_nothing_is_loud_before(box: Box | None) -> None:
    pack = made(changed(TWO_COILS, box=box))
    row = row_of(pack)
    assert row.subsonic_hz is None and "subsonic" in row.asked[0]
    assert any(step.blocked == row.asked[0] for step in pack.steps)
    loud = [step for step in pack.steps if _is_loud(pack, step)]
    assert len(loud) > 3 and all(row.asked[0] in step.blocked for step in loud)
    (said,) = [flag for flag in pack.flags if flag.kind == "box_not_said"] or [None]
    assert (said is not None and said.where == row.speaker) == (box is None)


def test_a_described_box_holds_nothing() -> None:
    pack = made(changed(TWO_COILS, box=Box(kind="sealed")))
    loud = [step for step in pack.steps if _is_loud(pack, step)]
    assert loud and not any(step.blocked for step in loud)
    assert not any(flag.kind == "box_not_said" for flag in pack.flags)


def _is_loud(pack: WorkPack, step: Step) -> bool:
    """Whether a speaker plays at its full level: read again, loud, by ear, for heat and whine."""
    turns = {test.turn for test in pack.tests if test.id in step.tests}
    heats = {"heat", "whine", "restarts"} & {*step.tests}
    return bool({"again", "loud", "sound"} & turns or heats)


def test_what_the_job_states_goes_before_a_starting_value() -> None:
    stated = SetFilters(
        low_pass_hz=65, subsonic_hz="off", slope_db_per_octave=24, polarity="inverted", delay_ms=1.5
    )
    row = row_of(made(changed(TWO_COILS, filters=stated)))
    assert (row.low_pass_hz, row.subsonic_hz, row.slope_db_per_octave) == (65, None, 24)
    assert (row.polarity, row.delay_ms) == ("inverted", 1.5)
    assert sum(each.source == "the job's record" for each in row.because) == 5


def test_a_control_that_does_not_reach_gives_its_nearest_value() -> None:
    short = steep(low_pass=FilterSpan(from_hz=90, to_hz=250), subsonic=None)
    row = row_of(made(with_filters(shipped_parts(TWO_COILS), short)))
    assert (row.low_pass_hz, row.subsonic_hz) == (90, None)
    assert any("no subsonic filter" in each.because for each in row.because)


def test_two_filters_of_twelve_decibels_start_turned_round_and_of_24_do_not() -> None:
    """Second-order halves of one corner are 180° apart, fourth-order ones 360°: Linkwitz 1976."""
    name = "rook-two-amplifiers"
    for slopes, polarity in (((12,), "inverted"), ((12, 24), "normal"), ((18,), "normal")):
        pack = made(with_filters(shipped_parts(name), steep(slopes)))
        assert row_of(pack).polarity == polarity
        assert row_of(pack, "front left door").polarity == "normal"


def test_a_converter_with_filters_is_set_in_the_amplifiers_place() -> None:
    parts = shipped_parts(TWO_COILS)
    converter = replace(parts.converter, filters=replace(steep((24,)), delay_max_ms=8.0))
    row = row_of(made(replace(parts, converter=converter)))
    assert (row.set_at, row.slope_db_per_octave) == (converter.name, 24)
    same = row_of(made(with_filters(parts, steep((24,)))))
    assert row.low_pass_hz == same.low_pass_hz and row.subsonic_hz == same.subsonic_hz


@pytest.mark.parametrize(("order", "times"), [(2, 1.0), (2, 2.0), (4, 0.5), (3, 1.7)])
def test_butterworth_is_what_scipy_computes(order: int, times: float) -> None:
    """scipy.signal, an independent computation; at 2 it is -12.3045 dB for the second order."""
    b, a = signal.butter(order, 1.0, analog=True)
    _, response = signal.freqs(b, a, worN=[times])
    assert butterworth(times, 6 * order) == pytest.approx(abs(response[0]), rel=1e-9)
    if order % 2 == 0:
        b, a = signal.butter(order // 2, 1.0, analog=True)
        _, half = signal.freqs(b, a, worN=[times])
        assert linkwitz_riley(times, 6 * order) == pytest.approx(abs(half[0]) ** 2, rel=1e-9)


def test_flat_filters_pass_everything() -> None:
    assert passed(FilterSet(None, None, None, 24), 40.0) == (1.0, 1.0)


def test_the_target_holds_with_the_correction_as_it_will_be_used() -> None:
    """10 V, −9 dB at 40 Hz, 12 dB of correction, 4.0 V target: the worked figures of the design."""
    tone = loudest_at_tone([(10.0, BassAtTone(40.0, -9.0, 0.0, corrected=True))])
    gain = 4.0 / tone.v_rms
    assert tone.uncorrected_v_rms == pytest.approx(3.548, abs=5e-4)
    assert gain == pytest.approx(0.400, abs=5e-4)
    assert tone.uncorrected_v_rms * gain == pytest.approx(1.419, abs=5e-4)
    assert tone.off_ratio == pytest.approx(0.3548, abs=5e-5)
    assert 1 / tone.off_ratio == pytest.approx(2.82, abs=5e-3)


def test_a_correction_that_the_job_leaves_off_is_not_counted() -> None:
    """A shipped subwoofer behind a converter that corrects: off, the gain counts the loss."""
    name = next(
        name for name in TAP_PLANS if any(r.correction == "on" for r in shipped_pack(name).tune)
    )
    at = next(i for i, each in enumerate(shipped_parts(name).job.speakers) if each.channel == "sub")
    on = row_of(shipped_pack(name))
    assert on.correction_off_tone_v_rms is not None
    assert on.correction_off_tone_v_rms < on.tone_v_rms
    off = made(changed(name, at, filters=SetFilters(correction="off")))
    assert row_of(off).correction == "off"
    assert row_of(off).correction_off_tone_v_rms is None
    assert off.levels[at].converter_gain is not None


def test_a_tweeter_starts_at_the_corner_of_the_car_or_three_kilohertz() -> None:
    """Between woofer and tweeter 2 to 4 kHz, 3 kHz to start with: common practice, no source."""
    read = SpeakerChannel(
        channel="front-left-tweeter", driven_by="radio", band="high", highpass_hz=4200.0
    )
    assert high_pass("high", None, with_sub=True).hz == 3000.0
    assert low_pass("low", None).hz == 3000.0
    assert high_pass("high", read, with_sub=True).hz == 4200.0


@pytest.mark.parametrize("name", SHIPPED)
def test_the_levels_sheet_and_the_bay_sheet_give_one_band_for_the_same_tone(name: str) -> None:
    pack = shipped_pack(name)
    lines = {test.id: test for test in pack.tests if test.turn == "again"}
    for row in pack.tune if lines else ():
        line = lines[speakable(row.speaker, AGAIN)]
        assert (line.low, line.high) == again_limits_v(row)
        assert bay_band(line) == f"{tune_view(row).again} AC"


@pytest.mark.parametrize("name", SHIPPED)
def test_a_subsonic_corner_that_waits_for_the_box_is_off_on_no_sheet(name: str) -> None:
    for row in shipped_pack(name).tune:
        waits = any("box" in asked for asked in row.asked)
        assert ("subsonic ask first" in tune_words(row)) == waits
        assert (tune_view(row).subsonic == "ask first") == waits

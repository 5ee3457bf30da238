"""What waits for what: by the way through the air, by what the car plays late, before a sum.

343.2 m/s is the speed of sound of ISO 9613-1 at 20 °C (memory); waits are worked by hand from it.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import shipped_parts
from test_tune import changed, made, row_of, steep, with_filters

from builder.model.job import SetFilters
from builder.planning.bay.tune_words import tune_words
from builder.planning.job.tune_delay import flight_ms, held_back
from builder.planning.work_pack import JobParts
from builder.rendering.pages.job_tune import tune_view

FOUR = "leto-four-doors"
WAYS = (1.0, 1.4, 1.1, 1.6)


def at_distances(parts: JobParts, ways: tuple[float | None, ...]) -> JobParts:
    speakers = tuple(replace(each, ear_m=way)
                     for each, way in zip(parts.job.speakers, ways, strict=True))  # fmt: skip
    return replace(parts, job=replace(parts.job, speakers=speakers))


def aligning(parts: JobParts) -> JobParts:
    return replace(parts, converter=replace(parts.converter, delay_adjust="yes"))


def test_sound_takes_2_9_ms_for_a_metre() -> None:
    assert flight_ms(1.0) == pytest.approx(1000 / 343.2)
    assert flight_ms(0.0) == 0.0
    with pytest.raises(ValueError, match="distance_m"):
        flight_ms(-0.1)


def test_the_nearest_waits_for_the_farthest() -> None:
    """0.6, 0.2 and 0.5 m nearer than the farthest: 1.75, 0.58 and 1.46 ms."""
    pack = made(at_distances(aligning(shipped_parts(FOUR)), WAYS))
    waits = [row.delay_ms for row in pack.tune]
    assert waits == [1.75, 0.58, 1.46, 0.0]
    where = {row.delay_at for row in pack.tune if row.delay_ms}
    assert where == {shipped_parts(FOUR).converter.name}
    first = pack.tune[0]
    assert f"delay 1.75 ms at {first.delay_at}" in tune_words(first)
    assert tune_view(first).delay == f"1.75 ms at {first.delay_at}"
    (reason,) = [each for each in first.because if each.decision.startswith("delay")]
    assert "1.00 m of air against 1.60 m, 343.2 m/s at 20 °C" in reason.because
    assert reason.source.startswith("ISO 9613-1")


def test_a_distance_that_nobody_measured_leaves_all_of_them_out() -> None:
    pack = made(at_distances(aligning(shipped_parts(FOUR)), (*WAYS[:3], None)))
    assert {row.delay_ms for row in pack.tune} == {0.0}


def test_without_anything_that_can_wait_there_is_no_delay() -> None:
    assert shipped_parts(FOUR).converter.delay_adjust == "no"
    pack = made(at_distances(shipped_parts(FOUR), WAYS))
    assert {(row.delay_ms, row.delay_at) for row in pack.tune} == {(0.0, "")}


def test_a_processor_delays_no_more_than_it_can() -> None:
    filters = replace(steep(), delay_max_ms=1.0)
    pack = made(with_filters(at_distances(shipped_parts(FOUR), WAYS), filters))
    assert [row.delay_ms for row in pack.tune] == [1.0, 0.58, 1.0, 0.0]
    assert {row.delay_at for row in pack.tune if row.delay_ms} == {"door amp"}
    (reason,) = [each for each in pack.tune[0].because if each.decision.startswith("delay")]
    assert "1.75 ms are asked for and it can do no more" in reason.because


def test_what_the_job_states_goes_before_distances() -> None:
    parts = at_distances(aligning(shipped_parts(FOUR)), WAYS)
    first, *others = parts.job.speakers
    stated = replace(first, filters=SetFilters(delay_ms=4.0))
    pack = made(replace(parts, job=replace(parts.job, speakers=(stated, *others))))
    assert [row.delay_ms for row in pack.tune] == [4.0, 0.58, 1.46, 0.0]


def test_a_pair_that_is_added_waits_for_the_later_one() -> None:
    """The mid-bass job adds woofers and tweeters; the late one is not held back."""
    parts = shipped_parts("tansy-two-coils")
    channels = [parts.vehicle.channel(each) for each in ("rear-left", "rear-right")]
    late = [
        replace(each, delay_ms=ms) for each, ms in zip(channels, (0.3, 1.1), strict=True) if each
    ]
    can = replace(parts.converter, delay_adjust="yes")
    (wait,) = held_back(late, can)
    assert (wait.channel, wait.delay_ms) == ("rear-left", 0.8)
    assert held_back(late, replace(can, delay_adjust="no")) == ()
    assert held_back(late[:1], can) == ()
    assert held_back([*late, None], can) == ()
    assert held_back([replace(each, delay_ms=None) for each in late], can) == ()


def test_pairs_that_wait_stand_on_the_tune_sheet_and_in_its_step() -> None:
    parts = aligning(shipped_parts("tansy-two-coils"))
    speakers = tuple(
        replace(each, delay_ms=1.1) if each.channel == "rear-right" else each
        for each in parts.vehicle.channels
    )
    late = replace(parts.vehicle, channels=speakers)
    pack = made(replace(parts, vehicle=late))
    row = row_of(pack)
    assert [(each.channel, each.delay_ms) for each in row.held_back] == [("rear-left", 1.1)]
    words = "rear left held back 1.1 ms at the converter, before it is added"
    assert words in tune_words(row) and words in tune_view(row).delay
    (step,) = [each for each in pack.steps if each.text.startswith("set the filters")]
    assert any(words in line for line in step.lines)
    assert row_of(made(changed("tansy-two-coils"))).held_back == ()

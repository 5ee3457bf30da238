"""What a recording says of a pair, as the keys that a record has for it. Each may be missing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from builder.model.recorded_figures import RecordedFigure, RecordedStep
from builder.model.recorded_sound import RecordedBetween, RecordedPair, RecordedSound
from builder.model.sound import BassPoint
from builder.model.words import UNKNOWN, Band, Channel
from builder.units import Decibels, Hertz

BASS_ENDS_HZ: Final = 120.0
"""A pair that is 3 dB down above it lacks the bass."""
TREBLE_ENDS_HZ: Final = 8_000.0
"""A pair that is 3 dB down below it lacks the treble. Both chosen by this project."""
_BASS_HZ, _TABLE_HZ, _BESIDE_HZ = 40.0, 200.0, 1000.0
_NEAR: Final = 1.06


@dataclass(frozen=True, slots=True)
class RecordedFacts:
    """What a recording says of one pair; None and "unknown" where it does not.

    `level` is the step of the loudest clean level, `late_ms` counts from the quickest pair of the
    same side.
    """

    band: Band = UNKNOWN
    lowpass: RecordedFigure | None = None
    highpass: RecordedFigure | None = None
    level: RecordedStep | None = None
    late_ms: RecordedFigure | None = None
    bass_table: tuple[BassPoint, ...] = ()


def recorded_facts(
    recording: RecordedSound, pair: RecordedPair, others: Iterable[Channel]
) -> RecordedFacts:
    """Return what a recording says of one of its pairs.

    Args:
        recording: The whole of it.
        pair: One of its pairs.
        others: The other pairs of the car on the same side: delays count from the quickest of all.
    """
    found = _by_crossovers(recording.between, pair.channel) or _by_edges(pair)
    return replace(
        found,
        level=_clean_level(pair),
        late_ms=_late(recording, pair.channel, tuple(others)),
        bass_table=_bass_table(pair),
    )


def _by_crossovers(between: Iterable[RecordedBetween], channel: Channel) -> RecordedFacts | None:
    """The band by its crossovers: corners by a reference, or the place where two halves meet."""
    low = high = None
    for two in between:
        if two.plays == "above_first":
            met = next((half.corner_hz for half in two.crossovers if half.corner_hz), two.meet_hz)
            low = met if two.first == channel else low
            high = met if two.second == channel else high
        if two.plays == "part_of_first" and two.second == channel:
            for half in two.crossovers:
                low = half.corner_hz if half.way == "low_pass" else low
                high = half.corner_hz if half.way == "high_pass" else high
    return RecordedFacts(_band(low, high), low, high) if low or high else None


def _band(lowpass: RecordedFigure | None, highpass: RecordedFigure | None) -> Band:
    if lowpass and highpass:
        return "mid"
    return "low" if lowpass else "high" if highpass else "full"


def _by_edges(pair: RecordedPair) -> RecordedFacts:
    """The band by its edges alone, whatever made them; unknown where one is not told."""
    low_end, high_end = pair.lower_edge_hz, pair.upper_edge_hz
    bass = low_end is not None and low_end.value <= BASS_ENDS_HZ
    treble = high_end is not None and high_end.value >= TREBLE_ENDS_HZ
    if low_end is None or (high_end is None and not _heard_at(pair, TREBLE_ENDS_HZ)):
        return RecordedFacts()
    lowpass = None if treble or high_end is None else high_end
    highpass = None if bass else low_end
    return RecordedFacts(_band(lowpass, highpass), lowpass, highpass)


def _heard_at(pair: RecordedPair, hz: Hertz) -> bool:
    level = _shape_db(pair, hz)
    return level is not None and level > -3


def _shape_db(pair: RecordedPair, hz: Hertz) -> Decibels | None:
    """The level of the sixth of an octave that a frequency lies in."""
    near = min(pair.shape, key=lambda each: max(each.hz / hz, hz / each.hz), default=None)
    if near is None or max(near.hz / hz, hz / near.hz) > _NEAR:
        return None
    return near.db


def _clean_level(pair: RecordedPair) -> RecordedStep | None:
    """The loudest clean step, if a louder one is not clean: else it may go further."""
    if pair.louder_is_not_clean != "yes":
        return None
    there = [each for each in pair.volume_steps if each.volume_step == pair.clean_step]
    told = [each for each in there if each.loud_v_rms]
    return max(told, key=lambda each: each.loud_v_rms or 0.0, default=None)


def _late(
    recording: RecordedSound, channel: Channel, others: tuple[Channel, ...]
) -> RecordedFigure | None:
    """By how much it comes after the quickest pair of its side, where all of them were recorded."""
    known: dict[Channel, RecordedFigure] = {}
    for two in recording.between:
        if two.late_ms is not None and channel in (two.first, two.second):
            sign = 1 if two.second == channel else -1
            other = two.first if two.second == channel else two.second
            known[other] = replace(two.late_ms, value=sign * two.late_ms.value)
    if not others or any(other not in known for other in others):
        return None
    most = max((known[other] for other in others), key=lambda each: each.value)
    return most if most.value > 0 else replace(most, value=0.0)


def _bass_table(pair: RecordedPair) -> tuple[BassPoint, ...]:
    """40 Hz against 200 Hz by step, as tables have it: from 1 kHz by the shape of the sweeps.

    What a radio changes at 200 Hz with the volume is not in it; loudness changes the bass most.
    """
    beside, table = _shape_db(pair, _BESIDE_HZ), _shape_db(pair, _TABLE_HZ)
    if beside is None or table is None:
        return ()
    return tuple(
        BassPoint(volume_step=each.volume_step, hz=_BASS_HZ, db=round(each.db + beside - table, 1))
        for each in pair.bass_by_step
    )


def worst_of(two: RecordedBetween, *, can_delay: bool) -> tuple[Hertz, Decibels] | None:
    """Return where joining two pairs takes most away, and how much; None where nobody knows.

    `can_delay` says that what joins them makes the delay between them good first.
    """
    curve = two.in_step if can_delay else two.sum
    worst = min(curve, key=lambda each: each.db, default=None)
    return None if worst is None else (worst.hz, min(0.0, worst.db))


def by_other(recording: RecordedSound, channel: Channel) -> Mapping[Channel, RecordedBetween]:
    """Return what a recording told of a pair and each other one, by the other's channel."""
    return {
        (two.first if two.second == channel else two.second): two
        for two in recording.between
        if channel in (two.first, two.second)
    }

"""What a pair really gives at a subwoofer's tone: its bass table, and what a converter corrects.

A factory radio takes bass away as the volume goes up. The table of a pair says how much, against
200 Hz, by volume step; a gain set without it comes out too low by as much.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import log2

from builder.model.parts import Converter
from builder.model.sound import BassPoint, SpeakerChannel
from builder.planning.tables import BASS_TABLE_OCTAVES
from builder.units import Decibels, Hertz, VoltsRms, db_to_ratio, require_positive


@dataclass(frozen=True, slots=True)
class BassAtTone:
    """What a pair gives at a tone against 200 Hz, and what is left of a loss once corrected.

    `residual_db` is never above 0: where the bass is louder than the rest, it is the bass that is
    at the pair's loudest clean level. `corrected` says that the converter's correction is on.
    """

    hz: Hertz
    source_db: Decibels
    residual_db: Decibels
    corrected: bool


def bass_at_tone(
    carries: SpeakerChannel | None,
    converter: Converter,
    tone_hz: tuple[Hertz, Hertz],
    *,
    corrects: bool,
) -> BassAtTone | None:
    """Return the bass of a pair at its loudest clean step, or None where nobody measured it.

    The frequency of the table that lies nearest to the tone counts, if it lies within half an
    octave. Between volume steps the loss is taken to change evenly; beyond the table it stays.
    A pair whose step nobody wrote down is taken at the loudest step of its table. `corrects` says
    that a correction which the converter has is used.
    """
    if carries is None or not carries.bass_table:
        return None
    middle = (tone_hz[0] * tone_hz[1]) ** 0.5
    nearest = min((point.hz for point in carries.bass_table), key=lambda hz: _apart(hz, middle))
    if _apart(nearest, middle) > BASS_TABLE_OCTAVES:
        return None
    points = sorted(
        (point for point in carries.bass_table if point.hz == nearest),
        key=lambda point: point.volume_step,
    )
    step = carries.level.at_volume_step if carries.level else None
    loss = loss_at_step_db(points, points[-1].volume_step if step is None else step)
    return _corrected(nearest, loss, converter, corrects=corrects)


def _apart(hz: Hertz, other_hz: Hertz) -> float:
    return abs(log2(hz / other_hz))


def loss_at_step_db(points: Sequence[BassPoint], step: float) -> Decibels:
    """Return the table's level at a volume step; `points` in the order of their steps. [dB]"""
    below = [point for point in points if point.volume_step <= step]
    above = [point for point in points if point.volume_step >= step]
    if not below or not above:
        return (below or above)[-1 if below else 0].db
    low, high = below[-1], above[0]
    if low.volume_step == high.volume_step:
        return high.db
    share = (step - low.volume_step) / (high.volume_step - low.volume_step)
    return low.db + share * (high.db - low.db)


def _corrected(
    hz: Hertz, source_db: Decibels, converter: Converter, *, corrects: bool
) -> BassAtTone:
    """A correction gives a loss back, at most all of it; it takes no bass away."""
    correction = converter.bass_rolloff_correction if corrects else None
    if correction is None or source_db >= 0 or correction.follows_level == "no":
        return BassAtTone(hz, source_db, min(0.0, source_db), corrected=False)
    return BassAtTone(hz, source_db, min(0.0, source_db + correction.max_db), corrected=True)


@dataclass(frozen=True, slots=True)
class ToneSource:
    """What a chain's gain acts on at its tone, before pad and sum. [V RMS]

    `v_rms` counts the correction as it will be used, `uncorrected_v_rms` is what the pair gives.
    `bass` is None where a tone at full level is played, or nobody measured the bass.
    """

    v_rms: VoltsRms
    uncorrected_v_rms: VoltsRms
    bass: BassAtTone | None = None

    @property
    def off_ratio(self) -> float:
        """What every meter reads with the correction off, over what it reads as used."""
        return self.uncorrected_v_rms / self.v_rms

    @property
    def full_band_ratio(self) -> float:
        """The tone over what comes at the same time where no bass is missing; at most 1."""
        return 1.0 if self.bass is None else db_to_ratio(self.bass.residual_db)


def loudest_at_tone(sources: Iterable[tuple[VoltsRms, BassAtTone | None]]) -> ToneSource:
    """Return the loudest of several pairs at the tone: no gain set with it asks for too much.

    Raises:
        ValueError: no source, or a level that is not positive and finite.
    """
    return max((_at_tone(volts, bass) for volts, bass in sources), key=lambda tone: tone.v_rms)


def _at_tone(source_v_rms: VoltsRms, bass: BassAtTone | None) -> ToneSource:
    require_positive("source_v_rms", source_v_rms)
    if bass is None:
        return ToneSource(source_v_rms, source_v_rms)
    return ToneSource(
        source_v_rms * db_to_ratio(bass.residual_db),
        source_v_rms * db_to_ratio(min(0.0, bass.source_db)),
        bass,
    )

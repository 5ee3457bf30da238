"""Where a recording of a pair says otherwise than what was typed of it, or than an older one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from builder.figures import shown
from builder.findings import DataPath
from builder.model.heard import Filled, Heard
from builder.model.recorded_figures import RecordedFigure
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN, Band
from builder.proof.recorded_facts import RecordedFacts
from builder.proof.recorded_sound import facts_in, recordings_of
from builder.units import gain_factor_db

APART_DB: Final = 1.0
APART_SHARE: Final = 0.1
APART_MS: Final = 0.05
"""By how much a typed figure may differ from a recording, beside what that may be wrong by: two
meters, a colder speaker, a corner read between two tones. Chosen by this project."""

_LEVEL = (
    "play a tone of 1 kHz at full scale into the pair at that volume step, as it was recorded, and "
    "look at it with a scope: is it clean? "
)
_CORNER = "read the AC volts of the pair at both frequencies and an octave inside its band: "
_DELAY = "record both pairs together once more, the radio's seat setting at all seats: "
_ENDS = (
    "where the recording is right, delete what was typed; where it is wrong, withdraw its visit "
    "with loombook visit withdraw"
)


@dataclass(frozen=True, slots=True)
class Dispute:
    """One key on which two differ: what it is, what each says, who said the first, what decides."""

    path: DataPath
    what: str
    typed: str
    by: str
    heard: str
    deciding: str


@dataclass(frozen=True, slots=True)
class _Said:
    """What one side says of a pair; None is nothing."""

    band: Band
    lowpass_hz: float | None
    highpass_hz: float | None
    level_v_rms: float | None
    step: int | None
    late_ms: float | None


def disputes_of(vehicle: Vehicle, channel: SpeakerChannel) -> Iterator[Dispute]:
    """Yield where the newest recording of a pair differs from the record, then from older ones."""
    if channel.heard is None:
        return
    found = [*recordings_of(vehicle, channel.channel)]
    newest = facts_in(vehicle, *found[-1])
    typed = _typed(channel, channel.heard)
    yield from _between(channel.path, typed, "the record", newest)
    for recording, pair in found[:-1]:
        older = _said(facts_in(vehicle, recording, pair))
        yield from _between(found[-1][1].path, older, recording.file, newest)


def _typed(channel: SpeakerChannel, heard: Heard) -> _Said:
    """What a person typed, without what the recording filled in."""

    def own(key: Filled, value: float | None) -> float | None:
        return None if key in heard.filled else value

    level = None if "level" in heard.filled else channel.level
    return _Said(
        UNKNOWN if "band" in heard.filled else channel.band,
        own("lowpass_hz", channel.lowpass_hz),
        own("highpass_hz", channel.highpass_hz),
        level.clean_max_v_rms if level else None,
        level.at_volume_step if level else None,
        own("delay_ms", channel.delay_ms),
    )


def _said(facts: RecordedFacts) -> _Said:
    level = facts.level
    return _Said(
        facts.band,
        facts.lowpass.value if facts.lowpass else None,
        facts.highpass.value if facts.highpass else None,
        level.loud_v_rms if level else None,
        level.volume_step if level else None,
        facts.late_ms.value if facts.late_ms else None,
    )


def _between(path: DataPath, typed: _Said, by: str, heard: RecordedFacts) -> Iterator[Dispute]:
    bands = {typed.band, heard.band} - {UNKNOWN}
    if len(bands) == 2:
        at = (*path, "band")
        yield Dispute(at, "the band", typed.band, by, heard.band, _CORNER + _ENDS)
    else:
        yield from _corners(path, typed, by, heard)
    yield from _levels(path, typed, by, heard)
    yield from _delays(path, typed, by, heard.late_ms)


def _delays(
    path: DataPath, typed: _Said, by: str, late: RecordedFigure | None
) -> Iterator[Dispute]:
    if typed.late_ms is None or late is None:
        return
    if abs(typed.late_ms - late.value) > APART_MS + late.plus_minus:
        yield Dispute(
            (*path, "delay_ms"), "the delay", f"{shown(typed.late_ms, 3)} ms", by,
            f"{shown(late.value, 3)} ± {shown(late.plus_minus, 3)} ms", _DELAY + _ENDS,
        )  # fmt: skip


def _corners(path: DataPath, typed: _Said, by: str, heard: RecordedFacts) -> Iterator[Dispute]:
    both: tuple[tuple[str, str, float | None, RecordedFigure | None], ...] = (
        ("lowpass_hz", "the upper corner", typed.lowpass_hz, heard.lowpass),
        ("highpass_hz", "the lower corner", typed.highpass_hz, heard.highpass),
    )
    for key, what, hz, told in both:
        if hz is None or told is None:
            continue
        if abs(hz - told.value) > APART_SHARE * hz + told.plus_minus:
            yield Dispute(
                (*path, key), what, f"{shown(hz)} Hz", by,
                f"{shown(told.value, 0)} ± {shown(told.plus_minus, 0)} Hz", _CORNER + _ENDS,
            )  # fmt: skip


def _levels(path: DataPath, typed: _Said, by: str, heard: RecordedFacts) -> Iterator[Dispute]:
    told = heard.level
    if typed.level_v_rms is None or told is None or not told.loud_v_rms:
        return
    error_db = gain_factor_db(1 + (told.loud_plus_minus_v or 0.0) / told.loud_v_rms)
    if abs(gain_factor_db(typed.level_v_rms / told.loud_v_rms)) > APART_DB + error_db:
        at = "" if typed.step is None else f" at volume step {typed.step}"
        yield Dispute(
            (*path, "level", "clean_max_v_rms"), "the loudest clean level",
            f"{shown(typed.level_v_rms, 2)} V{at}", by,
            f"{shown(told.loud_v_rms, 2)} V at volume step {told.volume_step}", _LEVEL + _ENDS,
        )  # fmt: skip

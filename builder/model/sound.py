"""What a vehicle plays: the sound on each pair, and sounds that must stay."""

from __future__ import annotations

from dataclasses import dataclass

from builder.findings import DataPath
from builder.model.words import Band, Channel, DrivenBy, InLine, Polarity, Tri, Volume


@dataclass(frozen=True, slots=True)
class Level:
    """How loud a pair gets. `clean_max_v_rms` is measured; `label_w` is only printed."""

    clean_max_v_rms: float | None
    at_volume_step: int | None
    label_w: float | None
    label_ohm: float | None


@dataclass(frozen=True, slots=True)
class BassPoint:
    """Level at a low frequency at one volume step, against 200 Hz."""

    volume_step: int
    hz: float
    db: float


@dataclass(frozen=True, slots=True)
class SpeakerChannel:
    """What one factory speaker pair carries."""

    channel: Channel
    driven_by: DrivenBy
    speaker_ohm: float | None
    band: Band
    lowpass_hz: float | None
    highpass_hz: float | None
    level: Level | None
    delay_ms: float | None
    polarity: Polarity
    volume: Volume
    upmix: Tri
    bass_table: tuple[BassPoint, ...]
    in_line: tuple[InLine, ...]
    shared_return: Tri
    path: DataPath


@dataclass(frozen=True, slots=True)
class ProtectedSound:
    """A sound that must still be heard after the work."""

    sound: str
    channels: tuple[Channel, ...]
    plays_key_off: Tri
    path: DataPath

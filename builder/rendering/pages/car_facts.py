"""What a vehicle's record says of the car besides its plugs, as label and phrase."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.names import function_name
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import Band, Tri
from builder.rendering.pages.pins import ReadingView, reading_view
from builder.rendering.pages.wording import figure, listed, plain


class Fact(NamedTuple):
    """A label and what the record says."""

    label: str
    value: str


class ChannelView(NamedTuple):
    """What one speaker pair carries, in phrases."""

    channel: str
    driven_by: str
    speaker: str
    band: str
    level: str
    remarks: str


class FuseView(NamedTuple):
    """A fuse-panel position that could feed a turn-on lead."""

    position: str
    panel: str
    label: str
    function: str
    rating: str
    readings: tuple[ReadingView, ...]


def channel_views(vehicle: Vehicle) -> list[ChannelView]:
    """What each speaker pair carries."""
    return [
        ChannelView(
            plain(channel.channel),
            channel.driven_by,
            figure(channel.speaker_ohm, "Ω"),
            _band(channel),
            "; ".join(each for each in (_level(channel), _line_level(channel)) if each),
            _remarks(channel),
        )
        for channel in vehicle.channels
    ]


def _band(channel: SpeakerChannel) -> str:
    words = _BANDS[channel.band]
    edges = [
        f"above {channel.highpass_hz:g} Hz" if channel.highpass_hz is not None else "",
        f"below {channel.lowpass_hz:g} Hz" if channel.lowpass_hz is not None else "",
    ]
    return " ".join([words, *(edge for edge in edges if edge)])


_CONNECTED: dict[Tri, str] = {
    "yes": ", speaker connected",
    "no": ", no speaker connected",
    "unknown": "",
}


def _level(channel: SpeakerChannel) -> str:
    level = channel.level
    if level is None:
        return "not recorded"
    if level.clean_max_v_rms is not None:
        at = f" at volume step {level.at_volume_step}" if level.at_volume_step is not None else ""
        load = _CONNECTED[level.speaker_connected]
        return f"{level.clean_max_v_rms:g} V RMS clean, measured{at}{load}"
    if level.label_w is not None:
        into = f" into {level.label_ohm:g} Ω" if level.label_ohm is not None else ""
        return f"{level.label_w:g} W{into} printed, not measured"
    return "not recorded"


def _line_level(channel: SpeakerChannel) -> str:
    """How loud the line feed of the factory amplifier gets, or nothing."""
    read = channel.line_level
    if read is None:
        return ""
    at = f" at volume step {read.at_volume_step}" if read.at_volume_step is not None else ""
    return f"line feed {read.clean_max_v_rms:g} V RMS clean{at}"


def _remarks(channel: SpeakerChannel) -> str:
    words = [f"polarity {channel.polarity}"] if channel.polarity != "unknown" else []
    if channel.volume != "unknown":
        words.append(f"{channel.volume} volume")
    if channel.delay_ms is not None:
        words.append(f"delayed {channel.delay_ms:g} ms")
    if channel.upmix == "yes":
        words.append("lacks what both sides share")
    if channel.shared_return == "yes":
        words.append("shares its return wire")
    words += [f"in line: {plain(item)}" for item in channel.in_line]
    words += [
        f"{point.db:+g} dB at {point.hz:g} Hz, step {point.volume_step}"
        for point in channel.bass_table
    ]
    return "; ".join(words)


def fuse_views(vehicle: Vehicle) -> list[FuseView]:
    """Fuse-panel positions the record names, with what was measured there."""
    sessions = {session.id: session for session in vehicle.sessions}
    return [
        FuseView(
            place.position,
            place.panel,
            place.label,
            function_name(place.function),
            figure(place.rating_a, "A"),
            tuple(reading_view(reading, sessions, {}) for reading in place.readings),
        )
        for place in vehicle.fuse_positions
    ]


_BANDS: dict[Band, str] = {
    "full": "full range",
    "low": "low band",
    "mid": "mid band",
    "high": "high band",
    "unknown": "not known",
}


def sound_lines(vehicle: Vehicle) -> list[str]:
    """Sounds that must still be heard after the work."""
    key_off: dict[Tri, str] = {
        "yes": "also with the key off",
        "no": "not with the key off",
        "unknown": "not known whether with the key off",
    }
    lines = []
    for sound in vehicle.sounds:
        channels = listed(tuple(plain(c) for c in sound.channels), "a channel not known")
        when = key_off[sound.plays_key_off]
        lines.append(f"{sound.sound}: from {channels}, {when}")
    return lines

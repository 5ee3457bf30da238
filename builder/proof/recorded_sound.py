"""A vehicle with what recordings told of its pairs, where nobody typed it.

What stands in the record stays: where a recording says otherwise, that is a dispute, and a rule
says which reading decides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from builder.figures import shown
from builder.model.heard import Filled, Heard
from builder.model.recorded_sound import RecordedPair, RecordedSound
from builder.model.sound import Level, SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN, Channel, RecordedOn, Tri
from builder.proof.recorded_facts import RecordedFacts, by_other, recorded_facts

_ON: dict[RecordedOn, str] = {
    "speaker": "its speaker connected",
    "resistor_4_ohm": "a 4 Ω resistor in the speaker's place",
    "open": "nothing connected",
}
_CONNECTED: dict[RecordedOn, Tri] = {"speaker": "yes", "resistor_4_ohm": "no", "open": "no"}


def with_recorded_sound(vehicle: Vehicle) -> Vehicle:
    """Return a vehicle whose pairs have what recordings told of them; the newest one counts."""
    if not vehicle.recordings:
        return vehicle
    return replace(vehicle, channels=tuple(_heard(vehicle, each) for each in vehicle.channels))


def recordings_of(
    vehicle: Vehicle, channel: Channel
) -> Iterator[tuple[RecordedSound, RecordedPair]]:
    """Yield the recordings of a pair, in the order of their days."""
    days = {session.id: session.date for session in vehicle.sessions}
    for each in sorted(vehicle.recordings, key=lambda one: days.get(one.session, "")):
        pair = each.pair(channel)
        if pair is not None:
            yield each, pair


def facts_in(vehicle: Vehicle, recording: RecordedSound, pair: RecordedPair) -> RecordedFacts:
    """Return what a recording says of a pair of this vehicle."""
    side = _side(pair.channel)
    channels = [each.channel for each in vehicle.channels if each.channel != pair.channel]
    others = [name for name in channels if side and _side(name) == side]
    return recorded_facts(recording, pair, others)


def _side(channel: Channel) -> str:
    """The side that a pair plays on, "" for those of both."""
    return next((side for side in ("left", "right") if f"-{side}" in channel), "")


def source_words(vehicle: Vehicle, recording: RecordedSound, pair: RecordedPair) -> str:
    """Return a recording in words: when, by whom, with what, on what."""
    session = vehicle.session(recording.session)
    when = f" of {session.date} by {session.by}" if session else ""
    made = ", made by a simulator" if recording.made_by == "simulator" else ""
    ratio = shown(recording.lead.ratio, 0)
    return f"recording {recording.file}{when}{made}, lead 1 to {ratio}, {_ON[pair.recorded_on]}"


def _heard(vehicle: Vehicle, typed: SpeakerChannel) -> SpeakerChannel:
    found = [*recordings_of(vehicle, typed.channel)]
    if not found:
        return typed
    recording, pair = found[-1]
    added = _added(typed, pair, facts_in(vehicle, recording, pair))
    heard = Heard(
        source_words(vehicle, recording, pair),
        pair.path,
        pair,
        by_other(recording, typed.channel),
        frozenset(added),
    )
    return replace(typed, heard=heard, **{str(key): value for key, value in added.items()})


def _added(typed: SpeakerChannel, pair: RecordedPair, facts: RecordedFacts) -> dict[Filled, Any]:
    """What the recording says and nobody typed."""
    added: dict[Filled, Any] = {}
    if typed.band == UNKNOWN and facts.band != UNKNOWN:
        added["band"] = facts.band
    band = facts.band if "band" in added else typed.band
    if typed.lowpass_hz is None and facts.lowpass and band in ("low", "mid"):
        added["lowpass_hz"] = facts.lowpass.value
    if typed.highpass_hz is None and facts.highpass and band in ("high", "mid"):
        added["highpass_hz"] = facts.highpass.value
    if facts.level is not None and (typed.level is None or typed.level.clean_max_v_rms is None):
        added["level"] = replace(
            typed.level or Level(),
            clean_max_v_rms=facts.level.loud_v_rms,
            at_volume_step=facts.level.volume_step,
            speaker_connected=_CONNECTED[pair.recorded_on],
        )
    if typed.delay_ms is None and facts.late_ms is not None:
        added["delay_ms"] = round(facts.late_ms.value, 3)
    if not typed.bass_table and facts.bass_table:
        added["bass_table"] = facts.bass_table
    return added

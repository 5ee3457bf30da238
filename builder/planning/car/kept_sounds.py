"""Sounds and functions of the car that the work must not take away."""

from __future__ import annotations

from typing import Final

from builder.declaring import settles
from builder.model.names import channel_name
from builder.model.parts import Converter
from builder.model.sound import ProtectedSound, SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.planning.car.doubt_readings import emergency_call_reading, key_off_reading
from builder.planning.car.output_sums import corner_of
from builder.planning.car.selection import Selection
from builder.planning.car.sound_kinds import is_call
from builder.planning.objections import Objection, object_to
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE, RECORD, STAND_IN_LOAD_OHM


def broken_channels(selection: Selection) -> frozenset[Channel]:
    """Channels whose speaker will play only through the new amplifier."""
    return frozenset(tap.pair.channel for tap in selection.broken)


def key_off_sounds(vehicle: Vehicle, selection: Selection) -> list[ProtectedSound]:
    """Return the protected sounds that play, or may play, key off through the new amplifier."""
    broken = broken_channels(selection)
    return [
        sound for sound in vehicle.sounds if sound.plays_key_off != "no" and _passes(sound, broken)
    ]


def gives(sound: ProtectedSound, channel: Channel) -> bool:
    """Whether a sound comes through this channel, or through the corner it is a band of."""
    return channel in sound.channels or corner_of(channel) in sound.channels


def _passes(sound: ProtectedSound, broken: frozenset[Channel]) -> bool:
    """Whether no untouched speaker is left to give the sound."""
    reached = broken | {corner_of(channel) for channel in broken}
    return bool(sound.channels) and reached.issuperset(sound.channels)


def own_sound_objections(vehicle: Vehicle, selection: Selection) -> list[Objection]:
    """Return what the car's own call and sounds say against the pairs that would be broken."""
    call = emergency_call_objections(vehicle, selection)
    return [*call, *unheard_objections(vehicle, selection)]


def emergency_call_objections(vehicle: Vehicle, selection: Selection) -> list[Objection]:
    """Return the refusal to put the emergency call behind an added amplifier."""
    if not selection.broken or vehicle.features.emergency_call == "no":
        return []
    calls = [sound for sound in vehicle.sounds if is_call(sound.sound)]
    if not calls:
        return [_find_the_call(vehicle, selection)]
    through = [call for call in calls if _passes(call, broken_channels(selection))]
    if not through:
        return []
    channels = through[0].channels
    named = ", ".join(map(channel_name, channels))
    because = (
        f"the emergency call speaks only through {named}, which would hang on the "
        f"added amplifier. Leave {'it' if len(channels) == 1 else 'one of them'} on the car"
    )
    return [object_to("the emergency call must not be broken", because, COMMON_PRACTICE)]


def _find_the_call(vehicle: Vehicle, selection: Selection) -> Objection:
    known = vehicle.features.emergency_call == "yes"
    because = (
        "the car has an emergency call, and which speaker gives it is not recorded"
        if known
        else "nobody looked whether the car has an emergency call, and which speaker gives it"
    )
    readings = [emergency_call_reading(tap.pair) for tap in selection.broken]
    return object_to("find the emergency call first", because, COMMON_PRACTICE, settled_by=readings)


def unheard_objections(vehicle: Vehicle, selection: Selection) -> list[Objection]:
    """Return the doubt about broken pairs of a car in which nobody listened for its own sounds."""
    if not selection.broken or vehicle.sounds_known:
        return []
    because = (
        "nobody listened which warnings of the car come through which speaker, so each pair that "
        "would hang on the added amplifier may carry one. It is settled by "
        f"{settles(Vehicle, 'protected_sounds')}"
    )
    readings = [key_off_reading(tap.pair, "warnings") for tap in selection.broken]
    return [object_to("find the car's own sounds first", because, RECORD, settled_by=readings)]


def kept_reasons(vehicle: Vehicle, selection: Selection, converter: Converter) -> list[Reason]:
    """Return what broken pairs and an added subwoofer ask of this car."""
    reasons = []
    if selection.broken:
        reasons += _stand_in_loads(vehicle, converter)
    reasons += _cancellation(vehicle, selection)
    mixed = [tap.pair.named for tap in selection.taps if _upmixed(tap.pair.carries)]
    if mixed:
        because = "what both sides share is taken out of it; test with the radio set to stereo"
        reasons.append(Reason(f"{', '.join(mixed)} is up-mixed", because, RECORD))
    return reasons


def _upmixed(carries: SpeakerChannel | None) -> bool:
    return carries is not None and carries.upmix == "yes"


def _stand_in_loads(vehicle: Vehicle, converter: Converter) -> list[Reason]:
    check = vehicle.radio.open_load_check
    if check == "no":
        return []
    if converter.input_load_ohm is not None:
        because = f"{converter.input_load_ohm:g} Ω inside the converter stands in for the speaker"
        return [Reason("no extra load needed", because, RECORD)]
    known = check == "yes"
    because = (
        "the radio mutes or faults when a pair is open"
        if known
        else "nobody tried whether the radio mutes when a pair is open, so count on it"
    )
    decision = f"{STAND_IN_LOAD_OHM:g} Ω across each broken pair, on the side of the car's output"
    return [Reason(decision, because, COMMON_PRACTICE)]


SEE_TO_CANCELLATION: Final = "see to noise cancellation"
"""The decision of the reason that stands where the microphones are unplugged."""


def microphones_out(vehicle: Vehicle, selection: Selection) -> bool:
    """Whether the microphones of the car's noise cancellation are unplugged for this work.

    Reasons, steps, the way back and the customer's sheet all ask here.
    """
    other_bass = "subwoofer" in selection.purpose or "sub" in broken_channels(selection)
    return other_bass and vehicle.features.noise_cancellation != "no"


def _cancellation(vehicle: Vehicle, selection: Selection) -> list[Reason]:
    if not microphones_out(vehicle, selection):
        return []
    known = vehicle.features.noise_cancellation == "yes"
    because = (
        "the car cancels engine drone through its speakers"
        if known
        else "nobody looked whether the car cancels engine drone through its speakers"
    )
    because += "; with a subwoofer added it can drone instead. Unplug its microphones, and note it"
    return [Reason(SEE_TO_CANCELLATION, because, COMMON_PRACTICE)]


def _amplified(selection: Selection) -> list[str]:
    """What hangs on the new amplifier from now on: every pair that a step cuts."""
    names = dict.fromkeys(_spoken(channel) for channel in sorted(broken_channels(selection)))
    if not names:
        return []
    last = list(names)[-1]
    said = f"{', '.join(list(names)[:-1])} and {last}" if len(names) > 1 else last
    return [f"Only through the new amplifier, silent when it is off: {said}."]


def _spoken(channel: Channel) -> str:
    return channel_name(channel)


def _cancellation_off(vehicle: Vehicle, selection: Selection) -> list[str]:
    if not microphones_out(vehicle, selection):
        return []
    if vehicle.features.noise_cancellation == "yes":
        return ["The noise cancellation is off, its microphones are unplugged: the engine drones."]
    return ["If the car cancels noise, that is off: its microphones are unplugged."]


def kept_losses(vehicle: Vehicle, selection: Selection) -> tuple[str, ...]:
    """Return what changes for the customer on the side of the car's own sounds and speakers."""
    losses = [*_amplified(selection), *_cancellation_off(vehicle, selection)]
    if any(_upmixed(tap.pair.carries) for tap in selection.broken):
        losses.append("Voices are thin unless the radio stays set to stereo.")
    broken = broken_channels(selection)
    through = [s.sound for s in vehicle.sounds if _passes(s, broken)]
    if through:
        losses.append(f"Heard only while the new amplifier is on: {', '.join(through)}.")
    return tuple(losses)

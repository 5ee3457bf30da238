"""Lines about the car's own sounds: how each is brought about, before the work and after it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.words import State
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import tick
from builder.planning.car.kept_sounds import SEE_TO_CANCELLATION
from builder.planning.car.sound_kinds import is_call, is_cancellation, is_fault
from builder.planning.work_pack import BayTest, JobParts, WorkPack

EMERGENCY_CALL = "emergency-call"
"""The line in which the voice of the call is heard at the end."""
SELF_TEST = "its self-test; never place a call"
CANCELLED_AT = "drive at 1200 to 2500 r/min with the windows shut"
_LAMP = "its lamp or message: it speaks only while the fault is there"
_DOOR = "lights on, then the driver's door opened"


def sounds_to_keep(parts: JobParts, *, cancelling: bool = True) -> tuple[str, ...]:
    """What the record protects, then what the customer named besides.

    `cancelling` says whether the car's noise cancellation is still at work: with its microphones
    unplugged nobody can keep it.
    """
    named = [sound.sound for sound in parts.vehicle.sounds]
    both = dict.fromkeys((*named, *parts.job.protect))
    return tuple(each for each in both if cancelling or not is_cancellation(each))


def kept_as_before(pack: WorkPack, parts: JobParts) -> tuple[str, ...]:
    """Return the sounds that a planned job keeps, as every sheet names them."""
    out = any(each.decision == SEE_TO_CANCELLATION for each in pack.because)
    return sounds_to_keep(parts, cancelling=not out)


def heard_in(parts: JobParts, sound: str) -> tuple[State, str]:
    """Return the state of the car in which a sound is met, before the work and after it, and how
    it is brought about."""
    if is_call(sound):
        return "run", f" ({SELF_TEST})"
    if is_cancellation(sound):
        return "engine", f" ({CANCELLED_AT})"
    if is_fault(sound):
        return "run", f" ({_LAMP})"
    key_off = {s.sound for s in parts.vehicle.sounds if s.plays_key_off != "no"}
    return ("retained", f" ({_DOOR})") if sound in key_off else ("run", "")


def while_it_plays(parts: JobParts, sound: str) -> tuple[State, str]:
    """Return the state in which a sound that plays with the key off needs its wire, in words.

    A call is not made to speak then: its wire is read as it would find it.
    """
    if is_call(sound):
        return "retained", f"as {sound} would find it; never place a call"
    state, how = heard_in(parts, sound)
    return state, f"while {sound} plays{how}"


def sounds_before(parts: JobParts) -> Iterator[BayTest]:
    """Yield each sound as it is before anything is touched."""
    for sound in sounds_to_keep(parts):
        state, how = heard_in(parts, sound)
        verb = "look at" if is_fault(sound) else "listen to"
        yield tick(
            speakable("before", sound), "as_found", f"{verb} it as it is now: {sound}{how}",
            state, "it must be the same at the end",
        )  # fmt: skip


def sounds_after(parts: JobParts, *, cancelling: bool = True) -> Iterator[BayTest]:
    """Yield each sound that is left, as it was; the call has a line of its own."""
    call = parts.vehicle.features.emergency_call != "no"
    for sound in sounds_to_keep(parts, cancelling=cancelling):
        if call and is_call(sound):
            continue
        state, how = heard_in(parts, sound)
        drone = ", no drone that was not there" if is_cancellation(sound) else ""
        yield tick(
            speakable("after", sound), "whole",
            f"{sound}{how}: as it was before work began{drone}", state, "it must not be lost",
        )  # fmt: skip
    if call:
        yield _EMERGENCY_CALL
    if parts.vehicle.features.noise_cancellation != "no":
        yield from _drone(parts, cancelling=cancelling)


def _drone(parts: JobParts, *, cancelling: bool) -> Iterator[BayTest]:
    """What is said of drone, where no line of the sound itself says it."""
    if not cancelling:
        yield _QUIET_SUBWOOFER
    elif not any(is_cancellation(each) for each in sounds_to_keep(parts)):
        yield _DRONE


_EMERGENCY_CALL = tick(
    EMERGENCY_CALL, "whole",
    f"emergency call, {SELF_TEST}: its lamp is not lit, its voice is heard as before work began",
    "run", "nothing of this job may stand between the call and its speaker",
)  # fmt: skip
_DRONE = tick(
    "cancellation-drone", "whole", f"{CANCELLED_AT}: no drone that was not there", "engine",
    "active cancellation may turn a new subwoofer into a drone",
)  # fmt: skip
_QUIET_SUBWOOFER = tick(
    "cancellation-drone", "whole",
    f"{CANCELLED_AT}, volume zero: nothing from the subwoofer; what is heard is the engine's own "
    "drone, which nothing cancels now", "engine",
    "a microphone that is still plugged in makes the subwoofer drone",
)  # fmt: skip

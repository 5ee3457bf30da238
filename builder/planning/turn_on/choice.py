"""What switches the converter on: the ladder climbed, every rung with its verdict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Converter, Interface
from builder.model.sound import ProtectedSound
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.planning.car.kept_sounds import key_off_sounds
from builder.planning.car.selection import Selection
from builder.planning.car.turn_on_place import Place
from builder.planning.car.turn_on_places import find_places
from builder.planning.car.turn_on_wires import awake_volts
from builder.planning.objections import Objection
from builder.planning.plan import Reason, Rung, TurnOn
from builder.planning.tables import COMMON_PRACTICE, DEVICE_RECORD, INTERFACE_RECORD, RECORD
from builder.planning.trust import Trust
from builder.planning.turn_on.better_rung import (
    FOLLOWS_THE_RADIO,
    UNPROVED,
    better_unproved,
    lower_rung_reasons,
    named,
)
from builder.planning.turn_on.objections import Choice, turn_on_objections
from builder.planning.words import PlaceVerdict, RungVerdict
from builder.proof.pin_readings import is_logic_level

_NEVER: dict[Function, str] = {
    "constant": "never goes off, so the battery goes flat",
    "constant_sleeps": "sleeps only minutes after locking and wakes at every unlock",
    "illumination": "follows the lights and the dimmer",
    "aerial_on": "may follow the tuner instead of the radio",
    "camera_supply": "a few volts for the camera, and the camera needs them",
    "microphone": "a bias for a microphone",
    "mute": "changes with a call",
    "speed": "a signal other units read",
    "reverse": "on in reverse gear only",
    "park_brake": "follows the brake lever",
    "wheel_keys": "a voltage the radio measures",
    "data_high": "data",
    "data_low": "data",
    "data_single": "data",
}
"""Functions that never switch anything on, and why. Common practice."""


@dataclass(frozen=True, slots=True)
class TurnOnChoice:
    """The chosen turn-on, the ladder it was chosen from, and what it means."""

    turn_on: TurnOn
    ladder: tuple[Rung, ...]
    place: Place | None
    reasons: tuple[Reason, ...]
    losses: tuple[str, ...]
    objections: tuple[Objection, ...]
    first: tuple[Reason, ...] = ()  # a better source that the job leaves alone, said on top


def choose_turn_on(
    vehicle: Vehicle,
    converter: Converter,
    selection: Selection,
    trust: Trust,
    defaults: HouseDefaults,
    draw_ma: float | None = None,
    *,
    lower_accepted: bool = False,
    interfaces: Sequence[Interface] = (),
    fitted: Sequence[str] = (),
) -> TurnOnChoice:
    """Return what switches the converter on; for a passive one, what must switch the amplifier.

    `draw_ma` is all that the source has to give; None takes the converter's turn-on input, and
    leaves the amplifier behind a passive converter out of account. A better source that is not
    proved is asked for, unless `lower_accepted`: then the proved one of a lower rung is taken, and
    what was passed over is said first. `interfaces` are the data interfaces of the shelf; one of
    those that the job has `fitted` is taken before any wire of the car.
    """
    places = list(find_places(vehicle, converter, selection, trust, defaults, draw_ma, interfaces))
    key_off = key_off_sounds(vehicle, selection)
    asked_for = [place for place in places if place.interface and place.interface.id in fitted]
    decided = _best(asked_for, bool(key_off))
    proved = decided or _best(places, bool(key_off))
    better = None if decided else better_unproved(proved, places, needs_awake=bool(key_off))
    chosen = proved if better is None or lower_accepted else better
    passed = better if chosen is proved else None
    ladder = tuple(_rung(place, chosen, passed) for place in places)
    reasons = [*_key_off_reasons(key_off), *_never_reasons(vehicle)]
    if chosen is not None:
        reasons += _place_reasons(chosen, vehicle, converter, defaults)
    return TurnOnChoice(
        _turn_on(chosen, converter, passes=draw_ma is None),
        ladder,
        chosen,
        tuple(reasons),
        _losses(chosen),
        tuple(
            turn_on_objections(
                chosen, places, key_off, Choice(vehicle, selection, defaults, proved)
            )
        ),
        lower_rung_reasons(chosen, passed),
    )


def _best(places: list[Place], key_off: bool) -> Place | None:
    """The best place: proved ones first, then those that need no driver, then the rung.

    When a sound must survive the key, following the radio counts before being proved.
    """
    usable = [place for place in places if place.verdict in ("fit", "weak")]
    return min(
        usable,
        key=lambda place: (
            key_off and place.rung not in FOLLOWS_THE_RADIO,
            place.verdict == "weak",
            place.driver,
            place.rung,
        ),
        default=None,
    )


def _rung(place: Place, chosen: Place | None, passed: Place | None) -> Rung:
    verdict: RungVerdict = "chosen" if place is chosen else _UNTAKEN[place.verdict]
    verdict = UNPROVED if place is passed else verdict
    return Rung(place.rung, place.kind, verdict, place.where, place.because)


_UNTAKEN: dict[PlaceVerdict, RungVerdict] = {
    "fit": "possible", "weak": "refused", "refused": "refused", "absent": "absent",
}  # fmt: skip


def _turn_on(chosen: Place | None, converter: Converter, *, passes: bool) -> TurnOn:
    if converter.kind == "passive" and passes:
        return _passive(chosen)
    if chosen is None:
        because = "no rung of the ladder holds"
        return TurnOn(None, "none", None, None, None, None, None, None, because)
    return TurnOn(
        chosen.rung, chosen.kind, chosen.plug, chosen.cavity, chosen.fuse_position, chosen.pair,
        chosen.draw_ma, chosen.capacity_ma, f"{named(chosen)}: {chosen.because}",
        chosen.interface.id if chosen.interface else None, chosen.path, chosen.relied_on,
    )  # fmt: skip


def _passive(chosen: Place | None) -> TurnOn:
    because = "the converter has no supply and needs no turn-on; the amplifier needs one of its own"
    if chosen is not None:
        because += f": {named(chosen)}"
    if chosen is None:
        return TurnOn(None, "none", None, None, None, None, None, None, because)
    return TurnOn(
        None, "none", None, None, None, None, None, None, because,
        path=chosen.path, relied_on=chosen.relied_on,
    )  # fmt: skip


def _key_off_reasons(sounds: list[ProtectedSound]) -> list[Reason]:
    if not sounds:
        return []
    names = ", ".join(sound.sound for sound in sounds)
    because = f"with the key off the new amplifier must still give: {names}"
    return [Reason("prefer a source that follows the radio", because, RECORD)]


def _never_reasons(vehicle: Vehicle) -> list[Reason]:
    """Name the pins that somebody could be tempted by, and why they are never used."""
    tempting: dict[str, list[str]] = {}
    for plug in vehicle.plugs:
        for pin in plug.pins:
            if pin.function in _NEVER:
                tempting.setdefault(_NEVER[pin.function], []).append(
                    f"{plug.id}.{pin.cavity} {pin.function.replace('_', ' ')}"
                )
    if not tempting:
        return []
    said = "; ".join(f"{', '.join(names)}: {why}" for why, names in tempting.items())
    return [Reason("never switch anything on from these", said, COMMON_PRACTICE)]


def _place_reasons(
    place: Place, vehicle: Vehicle, converter: Converter, defaults: HouseDefaults
) -> list[Reason]:
    decision = f"switch on from {named(place)}"
    reasons = [Reason(decision, place.because, COMMON_PRACTICE)]
    if converter.kind == "active" and converter.remote_out is not None:
        because = (
            f"it gives {converter.remote_out.max_ma:g} mA, so the car's output sees only the "
            "converter"
        )
        decision = "switch the amplifier on from the converter"
        reasons.append(Reason(decision, because, DEVICE_RECORD))
    if place.interface is not None:
        reasons.append(_own_supply(place.interface))
    if place.pin is not None and is_logic_level(place.pin, defaults):
        because = "a logic-level output; a transistor or relay driver makes 12 V of it"
        reasons.append(Reason("add a driver", because, COMMON_PRACTICE))
    dip = _restart_dip(place, vehicle, converter)
    return [*reasons, dip] if dip else reasons


def _own_supply(interface: Interface) -> Reason:
    awake = interface.supply.awake_ma
    at_work = "" if awake is None else f", awake {shown(awake)} mA and what its output gives"
    because = (
        "it joins by its own plug and nobody taps a data wire; asleep it draws "
        f"{interface.supply.idle_ma:g} mA{at_work}"
    )
    decision = f"feed {interface.name} behind its own {interface.supply.fuse_a:g} A fuse"
    return Reason(decision, because, INTERFACE_RECORD)


def _restart_dip(place: Place, vehicle: Vehicle, converter: Converter) -> Reason | None:
    threshold = converter.remote_in.threshold_v if converter.remote_in else None
    if place.pin is None or vehicle.features.start_stop == "no" or threshold is None:
        return None
    lows = awake_volts(place.pin, ("auto_restart",))
    if not lows:
        because = "nobody read this wire while the engine restarts; if it dips, the sound drops out"
        return Reason("read it during a restart", because, COMMON_PRACTICE)
    if min(lows) >= threshold:
        return None
    because = (
        f"a restart pulls it to {shown(min(lows), 1, beside=threshold)} V and the converter "
        "lets go "
        f"at {shown(threshold)} V; hold it up with a capacitor behind a diode, charged through "
        "a resistor"
    )
    return Reason("bridge the restart", because, DEVICE_RECORD)


def _losses(place: Place | None) -> tuple[str, ...]:
    if place is None:
        return ()
    said = {
        7: "No sound from the new amplifier with the key in accessory.",
        8: "The new amplifier comes on late and may cut quiet passages.",
    }
    if place.output is not None and place.output.hold_s:
        return (f"The new amplifier stays on for {place.output.hold_s:g} s after the key is off.",)
    return (said[place.rung],) if place.rung in said else ()

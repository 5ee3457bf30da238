"""What the two wires of one pair never read, whichever of its kinds the pair is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, PAIRED, State
from builder.proof.grading.weighing import Place, Visit
from builder.proof.pin_readings import exceeds, ground_volts, value_of
from builder.proof.wording import reading_words

_REST: tuple[State, ...] = ("radio_on_zero",)


def is_one_sided(low_v: float, high_v: float, defaults: HouseDefaults) -> bool:
    """Whether of two legs at volume zero one carries a bias and the other none."""
    return low_v <= defaults.off_max_v and high_v >= defaults.biased_leg_min_v


def legs_clash(one_v: float, other_v: float, defaults: HouseDefaults) -> bool:
    """Whether two legs at volume zero cannot be those of one pair."""
    low_v, high_v = min(one_v, other_v), max(one_v, other_v)
    apart = exceeds(high_v - low_v, defaults.leg_difference_stop_v)
    return apart or is_one_sided(low_v, high_v, defaults)


def pair_clashes(
    vehicle: Vehicle, place: Place, mates: Sequence[Place], visit: Visit, defaults: HouseDefaults
) -> list[str]:
    """Say each thing that the readings of a visit show and no pair does."""
    if place.pin.function not in PAIRED:
        return []
    return [
        *_apart(place, visit, defaults),
        *_on_the_body(vehicle, place, mates, visit, defaults),
        *_joined(vehicle, place, visit, defaults),
    ]


def taken_together(
    ours: Sequence[Reading], theirs: Sequence[Reading]
) -> Iterator[tuple[Reading, Reading]]:
    """Yield the readings of two legs that belong together: those nearest to each other, battery
    first, since a leg that was read parked and running rests at two figures."""
    for one in ours:
        other = min(theirs, key=lambda their: _between(one, their), default=None)
        if other is not None and min(ours, key=lambda our: _between(our, other)) is one:
            yield one, other


def _between(one: Reading, other: Reading) -> tuple[float, float]:
    apart_v = abs(value_of(one) - value_of(other))
    if one.battery_v is None or other.battery_v is None:
        return 0.0, apart_v
    return abs(one.battery_v - other.battery_v), apart_v


def _apart(place: Place, visit: Visit, defaults: HouseDefaults) -> Iterator[str]:
    theirs = [reading for mate, reading in visit.mates if _rests(mate.pin, reading)]
    ours = [reading for reading in visit.own if _rests(place.pin, reading)]
    for one, other in taken_together(ours, theirs):
        if legs_clash(value_of(one), value_of(other), defaults):
            apart = abs(value_of(one) - value_of(other))
            yield (
                f"the two legs differ by {shown(apart, 2)} V at volume zero; a bridge "
                f"allows {shown(defaults.leg_difference_stop_v)} V (house default: "
                "leg_difference_stop_v)"
            )


def _rests(pin: Pin, reading: Reading) -> bool:
    return any(reading is one for one in ground_volts(pin, _REST))


def _on_the_body(
    vehicle: Vehicle, place: Place, mates: Sequence[Place], visit: Visit, defaults: HouseDefaults
) -> Iterator[str]:
    if not any(_low_ohms(reading, defaults) for reading in visit.own):
        return
    if _is_bridged(vehicle, place, mates, defaults):
        for reading in visit.own:
            if _low_ohms(reading, defaults) and reading.against in GROUND_REFERENCES:
                yield f"{reading_words(reading)}: a bridged leg is never joined to the body"


def _low_ohms(reading: Reading, defaults: HouseDefaults) -> bool:
    if reading.quantity != "ohm" or reading.value is None:
        return False
    return not exceeds(reading.value, defaults.joined_max_ohm)


def _is_bridged(
    vehicle: Vehicle, place: Place, mates: Sequence[Place], defaults: HouseDefaults
) -> bool:
    """Whether the radio says so, or one of the legs carries a bias."""
    units = {plug.id: plug.unit for plug in vehicle.plugs}
    if vehicle.radio.outputs == "bridged" and units.get(place.plug) == "radio":
        return True
    ours = list(ground_volts(place.pin, _REST))
    theirs = [reading for mate in mates for reading in ground_volts(mate.pin, _REST)]
    return any(
        max(value_of(one), value_of(other)) >= defaults.biased_leg_min_v
        for one in ours
        for other in theirs
        if one.session == other.session
    )


def _joined(vehicle: Vehicle, place: Place, visit: Visit, defaults: HouseDefaults) -> Iterator[str]:
    for reading in visit.own:
        if _low_ohms(reading, defaults) and reading.against not in GROUND_REFERENCES:
            others = _pins_at(vehicle, place, reading.against)
            if any(_is_another(vehicle, place.pin, other) for other in others):
                yield f"{reading_words(reading)} to another pair: the two are swapped or joined"


def _pins_at(vehicle: Vehicle, place: Place, against: str) -> Iterable[Pin]:
    plug_id, dot, cavity = against.partition(".")
    wanted = (plug_id, cavity) if dot else (place.plug, against)
    return [p for plug in vehicle.plugs for p in plug.pins if (plug.id, p.cavity) == wanted]


def _is_another(vehicle: Vehicle, pin: Pin, other: Pin) -> bool:
    """Whether the other pin is of another channel, and shares no return wire with this one."""
    if other.channel is None or other.channel == pin.channel:
        return False
    if vehicle.radio.outputs == "common_ground" and pin.leg == other.leg == "negative":
        return False
    channels = (vehicle.channel(name) for name in (pin.channel, other.channel) if name)
    return not any(channel and channel.shared_return == "yes" for channel in channels)

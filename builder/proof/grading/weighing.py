"""The readings of one visit on one pin: how far they bear its signature out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.legs import other_legs
from builder.model.plugs import PLUGS, Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import Function
from builder.proof.judging import Outcome, against_of, find_row, judge, outcome_of
from builder.proof.signatures.loads import TURN_ON_OUTPUTS
from builder.proof.signatures.nominal import narrowed
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.shapes import Against, Expected, Kind
from builder.proof.words import Defining


class Place(NamedTuple):
    """A pin and the plug it is in; "" for a fuse position."""

    plug: str
    pin: Pin

    @property
    def cavity(self) -> tuple[str, str]:
        """Plug and cavity."""
        return (self.plug, self.pin.cavity)


def place_of(vehicle: Vehicle, pin: Pin) -> Place:
    """Return the pin with the id of the plug that its path names."""
    path = pin.path
    if path[:1] == (PLUGS,):
        return Place(vehicle.plugs[int(path[1])].id, pin)
    return Place("", pin)


def mates_of(vehicle: Vehicle, place: Place) -> tuple[Place, ...]:
    """Return the pins that make a pair with this one: the other leg, or the other data wire."""
    pin = place.pin
    if pin.function in ("speaker", "line"):
        found = list(_other_legs(vehicle, place)) if pin.channel and pin.leg else []
    elif pin.function in ("data_high", "data_low"):
        found = list(_other_data(vehicle, place))
    else:
        return ()
    same = tuple(mate for mate in found if mate.pin.only_if == pin.only_if)
    return same or tuple(found)


def _other_legs(vehicle: Vehicle, place: Place) -> Iterator[Place]:
    """Yield the other leg of the pair. A line has two ends with a plug each: only this end counts,
    or what was measured at the radio would prove the amplifier's plug."""
    anywhere = place.pin.function != "line"
    plugs = [plug for plug in vehicle.plugs if anywhere or plug.id == place.plug]
    yield from (Place(plug.id, other) for plug, other in other_legs(place.pin, plugs))


def _other_data(vehicle: Vehicle, place: Place) -> Iterator[Place]:
    wanted: Function = "data_low" if place.pin.function == "data_high" else "data_high"
    for plug in vehicle.plugs:
        if plug.id == place.plug:
            yield from (Place(plug.id, other) for other in plug.pins if other.function == wanted)


class Judged(NamedTuple):
    """A reading and the line of the signature it was judged by."""

    reading: Reading
    against: Against
    row: Expected


@dataclass(slots=True)
class Tally:
    """What a visit's readings say of one signature.

    `measured` and `proved` hold names of defining states: measured and in band, and measured
    well enough to count as proof. `touched` also holds those that were out of band.
    """

    kind: Kind
    met: int = 0
    contradicted: list[Judged] = field(default_factory=list)
    out_of_step: list[str] = field(default_factory=list)
    measured: set[Defining] = field(default_factory=set)
    proved: set[Defining] = field(default_factory=set)
    touched: set[Defining] = field(default_factory=set)
    battery_missing: bool = False

    @property
    def faults(self) -> int:
        """How many readings, or pairs of readings, speak against the signature."""
        return len(self.contradicted) + len(self.out_of_step)

    @property
    def missing(self) -> tuple[Defining, ...]:
        """The defining states that nothing proves."""
        return tuple(name for name in self.kind.defining if name not in self.proved)

    def rank(self) -> tuple[int, int, int, int]:
        """Best first: fewest contradictions, then most proof."""
        return (self.faults, -len(self.proved), -len(self.measured), -self.met)

    def sentences(self) -> list[str]:
        """Why the readings speak against the signature."""
        judged = [judge(j.reading, self.kind, j.against).sentence for j in self.contradicted]
        return judged + self.out_of_step


class Visit(NamedTuple):
    """One session's readings that bear on a pin: its own and those of its pair mates."""

    own: tuple[Reading, ...]
    mates: tuple[tuple[Place, Reading], ...]


def visits_of(place: Place, mates: tuple[Place, ...]) -> dict[str, Visit]:
    """Group the readings of a pin and its mates by session id."""
    own: dict[str, list[Reading]] = {}
    beside: dict[str, list[tuple[Place, Reading]]] = {}
    for reading in place.pin.readings:
        own.setdefault(reading.session, []).append(reading)
    for mate in mates:
        for reading in mate.pin.readings:
            beside.setdefault(reading.session, []).append((mate, reading))
    return {
        session: Visit(tuple(own.get(session, ())), tuple(beside.get(session, ())))
        for session in dict.fromkeys((*own, *beside))
    }


def tally(
    place: Place, mates: tuple[Place, ...], visit: Visit, kind: Kind, defaults: HouseDefaults
) -> Tally:
    """Judge all readings of a visit by one signature."""
    result = Tally(kind)
    points = frozenset(mate.cavity for mate in mates)
    for reading in visit.own:
        _count(result, reading, against_of(reading.against, place.plug, points), kind)
    if visit.mates and kind.partner:
        _count_mates(result, place, visit, _partner(kind, defaults))
    if kind.function in TURN_ON_OUTPUTS:
        _compare_loaded(result, visit, defaults.supply_drop_v)
    return result


def _partner(kind: Kind, defaults: HouseDefaults) -> Kind:
    """The kind of the other wire of the pair, as narrow as this one and on the same rail."""
    if kind.partner == kind.id:
        return kind
    partner = kinds(defaults)[kind.partner]
    return narrowed(partner, kind.nominal, defaults) if kind.nominal else partner


def _count(result: Tally, reading: Reading, against: Against, kind: Kind) -> None:
    row = find_row(reading, kind, against)
    if row is None:
        return
    outcome = outcome_of(reading, row)
    if outcome is Outcome.SILENT:
        return
    result.touched.update(row.proves)
    if row.proves and reading.battery_v is None and reading.quantity == "dc_v":
        result.battery_missing = True
    if outcome is Outcome.CONTRADICTED:
        result.contradicted.append(Judged(reading, against, row))
        return
    result.met += 1
    result.measured.update(row.proves)
    if reading.state != "asleep" or (reading.minutes or 0.0) >= row.proves_from_min:
        result.proved.update(row.proves)


def _count_mates(result: Tally, place: Place, visit: Visit, partner: Kind) -> None:
    """Take from the mate's readings what holds for the pair: its bias, ohms and tone."""
    here = frozenset((place.cavity,))
    for mate, reading in visit.mates:
        against = against_of(reading.against, mate.plug, here)
        if reading.quantity == "dc_v" and against == "ground":
            _count_other_bias(result, reading, partner)
        else:
            _count(result, reading, against, partner)


def _count_other_bias(result: Tally, reading: Reading, partner: Kind) -> None:
    row = find_row(reading, partner, "ground")
    if row and "bias" in row.proves and outcome_of(reading, row) is Outcome.MET:
        result.touched.add("other_bias")
        result.measured.add("other_bias")
        result.proved.add("other_bias")
        result.battery_missing |= reading.battery_v is None


def _compare_loaded(result: Tally, visit: Visit, most_v: float) -> None:
    for state in dict.fromkeys(reading.state for reading in visit.own):
        volts = [r for r in visit.own if r.state == state and r.quantity == "dc_v"]
        unloaded = [r.value for r in volts if r.load == "none" and r.value is not None]
        loaded = [r.value for r in volts if r.load != "none" and r.value is not None]
        if not unloaded or not loaded:
            continue
        sag = min(one - other for one in unloaded for other in loaded)
        if sag > most_v + 1e-9:
            result.out_of_step.append(
                f"it sags by {sag:.2f} V under load; a turn-on output keeps within {most_v:g} V "
                "(house default: supply_drop_v)"
            )

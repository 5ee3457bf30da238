"""The readings that must pass before a joint is made, or that would settle a doubt."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.model.words import Load, State
from builder.planning.car.pairs import Pair
from builder.planning.car.turn_on_place import Place
from builder.planning.plan import ProofReading
from builder.proof.band import Limits
from builder.proof.judging import Outcome, against_of, outcome_of, with_article
from builder.proof.signatures.of_pins import kinds_of_pin
from builder.proof.signatures.shapes import Expected, Kind
from builder.proof.wording import expectation_sentence
from builder.proof.words import Defining

_PREFERRED_STATES: tuple[State, ...] = ("radio_on_zero", "unplugged", "run")
"""Which state to ask for when a line holds in several. Chosen by this project."""

_ONCE_A_PAIR: frozenset[Defining] = frozenset({"across", "body"})
"""Defining readings that one leg answers for both, on a bridge."""


Where = tuple[str | None, str | None, str | None]
"""Plug and cavity, or fuse position."""


@dataclass(frozen=True, slots=True)
class _Point:
    """Where to put the meter: a cavity or a fuse position, and the other leg if it has one."""

    plug: str | None
    cavity: str | None
    fuse_position: str | None
    other_leg: tuple[str, str] | None


def pair_readings(
    vehicle: Vehicle, pair: Pair, defaults: HouseDefaults, *, open_only: bool = False
) -> list[ProofReading]:
    """Return what proves both legs of a pair; `open_only` leaves out what was read already."""
    found: list[ProofReading] = []
    for leg, other in ((pair.positive, pair.negative), (pair.negative, pair.positive)):
        point = _Point(leg.plug.id, leg.pin.cavity, None, (other.plug.id, other.pin.cavity))
        done = _ONCE_A_PAIR if found and pair.topology != "common_ground" else frozenset()
        found += _pin_readings(vehicle, leg.pin, point, defaults, done, open_only)
    return found


def place_readings(
    vehicle: Vehicle, place: Place, defaults: HouseDefaults, *, open_only: bool = False
) -> list[ProofReading]:
    """Return what proves a turn-on wire, a fuse position or a bus; nothing for a pair or sound."""
    if place.bus:
        return _bus_readings(vehicle, place, defaults, open_only=open_only)
    if place.pin is None:
        return []
    where = (place.plug, place.cavity, place.fuse_position)
    return pin_readings(vehicle, place.pin, where, defaults, open_only=open_only)


def _bus_readings(
    vehicle: Vehicle, place: Place, defaults: HouseDefaults, *, open_only: bool
) -> list[ProofReading]:
    """Each data wire by itself, and the two of a pair once against each other."""
    found: list[ProofReading] = []
    paired: set[Pin] = set()
    for plug, pin in place.bus:
        mates = [each for each in place.bus if _are_mates(vehicle, pin, each[1], defaults)]
        other = (mates[0][0], mates[0][1].cavity) if mates else None
        done = _ONCE_A_PAIR if pin in paired else frozenset[Defining]()
        point = _Point(plug, pin.cavity, None, other)
        found += _pin_readings(vehicle, pin, point, defaults, done, open_only)
        paired |= {mate for _, mate in mates}
    return found


def _are_mates(vehicle: Vehicle, pin: Pin, other: Pin, defaults: HouseDefaults) -> bool:
    wanted = {kind.partner for kind in kinds_of_pin(vehicle, pin, defaults)} - {""}
    return any(kind.id in wanted for kind in kinds_of_pin(vehicle, other, defaults))


def pin_readings(
    vehicle: Vehicle, pin: Pin, where: Where, defaults: HouseDefaults, *, open_only: bool = False
) -> list[ProofReading]:
    """Return what proves a pin that is no leg of a pair, at plug and cavity or fuse position."""
    return _pin_readings(vehicle, pin, _Point(*where, None), defaults, frozenset(), open_only)


def _pin_readings(
    vehicle: Vehicle,
    pin: Pin,
    point: _Point,
    defaults: HouseDefaults,
    done: frozenset[Defining],
    open_only: bool,
) -> list[ProofReading]:
    kinds = kinds_of_pin(vehicle, pin, defaults)
    if not kinds:
        return []
    rows = list(_defining_rows(kinds[0], done))
    if open_only:
        rows = [row for row in rows if not _met(pin, point, row)] or rows
    return [_reading(pin, point, kinds[0], row) for row in rows]


def _defining_rows(kind: Kind, done: frozenset[Defining]) -> Iterator[Expected]:
    """One line for each defining reading of the kind that is not done yet."""
    seen = {"other_bias", *done}
    for row in kind.rows:
        if set(row.proves) - seen:
            seen.update(row.proves)
            yield row


def _met(pin: Pin, point: _Point, row: Expected) -> bool:
    partners = frozenset([point.other_leg] if point.other_leg else [])
    return any(
        reading.state in row.states
        and reading.quantity == row.quantity
        and (not row.loads or reading.load in row.loads)
        and against_of(reading.against, point.plug or "", partners) == row.against
        and outcome_of(reading, row) is Outcome.MET
        for reading in pin.readings
    )


def _reading(pin: Pin, point: _Point, kind: Kind, row: Expected) -> ProofReading:
    state = next((s for s in _PREFERRED_STATES if s in row.states), row.states[0])
    load = _load(row)
    limits = Limits.of(row.band)
    settles = "; ".join(kind.defining[name] for name in row.proves if name in kind.defining)
    return ProofReading(
        plug=point.plug,
        cavity=point.cavity,
        fuse_position=point.fuse_position,
        function=pin.function,
        state=state,
        against=_against(point, row),
        load=load,
        quantity=row.quantity,
        low=limits.low,
        high=limits.high,
        how=expectation_sentence(state, row, None),
        settles=f"whether {_where(point)} is {with_article(kind.name)} ({settles})",
        safety=_safety(pin, row, load),
        low_from_battery_v=limits.low_from_battery_v,
        high_from_battery_v=limits.high_from_battery_v,
    )


def _where(point: _Point) -> str:
    return point.fuse_position or f"{point.plug}.{point.cavity}"


def _load(row: Expected) -> Load:
    """The heaviest load the line allows a bay to use; open where any will do."""
    return row.loads[-1] if row.loads and "none" not in row.loads else "none"


def _against(point: _Point, row: Expected) -> str:
    if row.against == "other_leg" and point.other_leg is not None:
        return ".".join(point.other_leg)
    return "body" if row.quantity == "ohm" else "battery_negative"


def _safety(pin: Pin, row: Expected, load: Load) -> str:
    if row.quantity == "ohm":
        return "Dead circuit only: pull the plug and measure on the car side."
    if pin.function == "speaker":
        return "Never load it, and never let the probe bridge the two legs."
    if load in ("50ma", "5ma"):
        return "Read it open first; 50 mA only if it shows at least 9 V, else 5 mA. Never a lamp."
    if load != "none":
        return "Read it open first; no more than its fuse allows."
    return ""

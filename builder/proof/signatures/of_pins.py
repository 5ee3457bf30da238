"""Which signatures a pin may have, and what it should read, for pages and bay sheets."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Vehicle
from builder.model.words import STATES, Function, Leg, Load, Quantity, RadioOutputs, State
from builder.proof.band import Bound, limit_at
from builder.proof.signatures.control import AMPLIFIER_ON, AMPLIFIER_ON_LOGIC
from builder.proof.signatures.nominal import narrowed, nominal_of
from builder.proof.signatures.pairs import legs_on_rail
from builder.proof.signatures.shapes import Against, Expected, Kind, resolve
from builder.proof.signatures.table import SIGNATURES
from builder.proof.wording import expectation_sentence
from builder.proof.words import Defining


@lru_cache(maxsize=8)
def kinds(defaults: HouseDefaults) -> dict[str, Kind]:
    """Every signature by id, with these house defaults put in."""
    return {signature.id: resolve(signature, defaults) for signature in SIGNATURES}


@lru_cache(maxsize=32)
def kinds_on_rail(rail_v: float | None, defaults: HouseDefaults) -> dict[str, Kind]:
    """The same in a car whose factory amplifier has a raised rail of so many volts, or None."""
    raised = () if rail_v is None else legs_on_rail(rail_v)
    return kinds(defaults) | {signature.id: resolve(signature, defaults) for signature in raised}


DEFINING: dict[str, dict[Defining, str]] = {one.id: one.defining for one in SIGNATURES}
"""The defining states of each kind, by its id: name of the state to what has to be measured."""


@lru_cache(maxsize=8)
def _by_function(defaults: HouseDefaults) -> dict[Function, tuple[Kind, ...]]:
    found: dict[Function, tuple[Kind, ...]] = {}
    for kind in kinds(defaults).values():
        found[kind.function] = (*found.get(kind.function, ()), kind)
    return found


def kinds_of_function(function: Function, defaults: HouseDefaults) -> tuple[Kind, ...]:
    """Every signature a function may have; none for "unknown"."""
    return _by_function(defaults).get(function, ())


def kinds_of_pin(vehicle: Vehicle, pin: Pin, defaults: HouseDefaults) -> tuple[Kind, ...]:
    """The signatures that the pin may have in this vehicle; unknown facts leave all open."""
    if pin.function == "speaker":
        table = kinds_on_rail(vehicle.factory_amplifier.rail_v, defaults)
        nominal = nominal_of(vehicle.channel(pin.channel) if pin.channel else None)
        found = tuple(table[name] for name in _speaker_ids(vehicle, pin))
        return tuple(narrowed(kind, nominal, defaults) for kind in found) if nominal else found
    if pin.function == "amplifier_on" and pin.level_v is not None:
        table = kinds(defaults)
        logic = pin.level_v <= defaults.logic_on_max_v
        return (table[AMPLIFIER_ON_LOGIC.id if logic else AMPLIFIER_ON.id],)
    return kinds_of_function(pin.function, defaults)


def _speaker_ids(vehicle: Vehicle, pin: Pin) -> list[str]:
    carried = vehicle.channel(pin.channel) if pin.channel else None
    plain = [f"speaker_{name}" for name in _speaker_families(vehicle, pin, carried)]
    behind = [f"{name}_capacitor" for name in plain]
    if carried and "series_capacitor" in carried.in_line:
        return behind
    return plain + behind if (pin.channel or "").endswith("tweeter") else plain


def _speaker_families(
    vehicle: Vehicle, pin: Pin, carried: SpeakerChannel | None
) -> tuple[str, ...]:
    if carried and carried.driven_by == "amplifier":
        return ("amplifier",)
    by_radio = _radio_families(vehicle.radio.outputs, pin.leg)
    if carried or vehicle.factory_amplifier.feed == "none":
        return by_radio
    return (*by_radio, "amplifier")


_COMMON_LEGS: dict[Leg, tuple[str, ...]] = {
    "positive": ("common_signal",),
    "negative": ("common_return",),
}


def _radio_families(outputs: RadioOutputs, leg: Leg | None) -> tuple[str, ...]:
    if outputs == "bridged":
        return ("bridged",)
    common = _COMMON_LEGS[leg] if leg else ("common_signal", "common_return")
    return common if outputs == "common_ground" else ("bridged", *common)


@dataclass(frozen=True, slots=True)
class ExpectedReading:
    """What a pin should read in one state, at stated battery volts; a bound of None is open.

    `low` and `high` are in the unit of `quantity`. `defining` says that the line settles one of
    the function's defining states. `loads` empty means any load.
    """

    kind: str
    kind_name: str
    state: State
    against: Against
    loads: tuple[Load, ...]
    quantity: Quantity
    low: float | None
    high: float | None
    strict: bool
    defining: bool
    sentence: str
    source: str


def expected_readings(kind: Kind, battery_v: float) -> tuple[ExpectedReading, ...]:
    """Return what `kind` reads in every state it speaks of, in the order of the state list."""
    pairs = [(state, row) for row in kind.rows for state in row.states]
    pairs.sort(key=lambda pair: STATES.index(pair[0]))
    return tuple(_expected(kind, state, row, battery_v) for state, row in pairs)


def _expected(kind: Kind, state: State, row: Expected, battery_v: float) -> ExpectedReading:
    return ExpectedReading(
        kind.id,
        kind.name,
        state,
        row.against,
        row.loads,
        row.quantity,
        _figure(row.low, battery_v),
        _figure(row.high, battery_v),
        row.strict,
        bool(row.proves),
        expectation_sentence(state, row, battery_v),
        row.source,
    )


def _figure(bound: Bound | None, battery_v: float) -> float | None:
    return None if bound is None else limit_at(bound, battery_v)


def expected_of_function(
    function: Function, defaults: HouseDefaults, battery_v: float
) -> tuple[ExpectedReading, ...]:
    """Return the expected readings of every kind of `function`, kind after kind."""
    return tuple(
        row
        for kind in kinds_of_function(function, defaults)
        for row in expected_readings(kind, battery_v)
    )


def expected_of_pin(
    vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, battery_v: float
) -> tuple[ExpectedReading, ...]:
    """Return the expected readings of the pin, narrowed by what the record says of the car."""
    return tuple(
        row
        for kind in kinds_of_pin(vehicle, pin, defaults)
        for row in expected_readings(kind, battery_v)
    )


def proof_readings(
    vehicle: Vehicle, pin: Pin, defaults: HouseDefaults, battery_v: float
) -> tuple[ExpectedReading, ...]:
    """Return the defining readings of the pin, one for each defining state of its first kind.

    A pin whose function no reading settles (a mute wire, say) gets its strict lines instead.
    """
    choices = kinds_of_pin(vehicle, pin, defaults)
    if not choices:
        return ()
    readings = expected_readings(choices[0], battery_v)
    wanted = [reading for reading in readings if reading.defining]
    return tuple(wanted or (reading for reading in readings if reading.strict))

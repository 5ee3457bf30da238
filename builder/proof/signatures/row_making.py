"""Short ways to write the lines of a signature."""

from __future__ import annotations

from builder.model.words import Load, Quantity, State
from builder.proof.signatures.shapes import PRACTICE, Against, Limit, Row
from builder.proof.words import Defining

RADIO_ON: tuple[State, ...] = ("radio_on_zero", "radio_on_tone", "tuner", "other_source")
KEYED: tuple[State, ...] = ("accessory", "run", "engine")
LIT: tuple[State, ...] = ("lights_on", "lights_dimmed", "lights_off")
AWAKE: tuple[State, ...] = (*KEYED, "door_open", *LIT, "radio_off", *RADIO_ON)
STARTING: tuple[State, ...] = ("crank", "auto_restart")
DEAD: tuple[State, ...] = ("unplugged", "battery_off")
"""States in which a resistance may be read: the circuit is dead."""

NO_LOAD: tuple[Load, ...] = ("none",)
LIGHT: tuple[Load, ...] = ("none", "5ma", "50ma")
HEAVY: tuple[Load, ...] = ("lamp_0.4a", "1a")
SMALL: tuple[Load, ...] = ("5ma", "50ma")
ANY_LOAD: tuple[Load, ...] = ()


def at(value: float) -> Limit:
    """A limit that is the same in every car."""
    return Limit(0.0, value)


def house(name: str, sign: float = 1.0) -> Limit:
    """A limit that is a house default."""
    return Limit(0.0, 0.0, name, sign)


def battery(name: str = "", sign: float = 1.0, plus: float = 0.0) -> Limit:
    """A limit that moves with the battery: battery volts plus or minus a house default."""
    return Limit(1.0, plus, name, sign)


ABOVE_BATTERY = battery("supply_match_v")
"""Most that anything fed from the battery reads."""


def line(
    states: tuple[State, ...],
    low: Limit | None,
    high: Limit | None,
    *,
    quantity: Quantity = "dc_v",
    against: Against = "ground",
    loads: tuple[Load, ...] = NO_LOAD,
    proves: tuple[Defining, ...] = (),
    strict: bool = True,
    meets_from: str = "asleep_min",
    proves_from: str = "asleep_min",
    contradicts_from: str = "asleep_min",
    note: str = "",
    source: str = PRACTICE,
) -> Row:
    """Return one line of a signature."""
    return Row(
        states, quantity, low, high, against, loads, proves, strict, meets_from, proves_from,
        contradicts_from, note, source,
    )  # fmt: skip


def off(states: tuple[State, ...], *, proves: tuple[Defining, ...] = ()) -> Row:
    """Return the line of a wire that is dead in `states`, loaded or not."""
    dead = (house("off_max_v", -1), house("off_max_v"))
    return line(states, *dead, loads=ANY_LOAD, proves=proves)


def on(states: tuple[State, ...], *, proves: tuple[Defining, ...] = ()) -> Row:
    """Return the line of a switched supply that is live in `states`, loaded or not."""
    return line(states, battery("supply_drop_v", -1), ABOVE_BATTERY, loads=ANY_LOAD, proves=proves)


def ohms(
    low: Limit | None,
    high: Limit | None,
    *,
    against: Against = "ground",
    proves: tuple[Defining, ...] = (),
    strict: bool = True,
    note: str = "",
) -> Row:
    """Return a resistance line; it is read on a dead circuit only."""
    return line(
        DEAD, low, high, quantity="ohm", against=against, proves=proves, strict=strict, note=note
    )

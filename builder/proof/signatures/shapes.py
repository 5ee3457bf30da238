"""The shape of a signature: what a pin of one kind reads in each state of the car."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.model.words import Function, Load, Quantity, State
from builder.proof.band import Band, Bound
from builder.proof.words import Defining

Against = Literal["ground", "other_leg", "elsewhere"]
"""What a reading was taken against: ground (battery negative or body), the other wire of the
pin's pair, or some other cavity, which no signature speaks of."""

PRACTICE = "common practice, no source"


class Limit(NamedTuple):
    """A limit before the house defaults are known.

    The limit is `share` × battery volts + `plus` + `sign` × the house default `default`.
    """

    share: float
    plus: float = 0.0
    default: str = ""
    sign: float = 1.0

    def bound(self, defaults: HouseDefaults) -> Bound:
        """The limit with the house default put in."""
        house = self.sign * getattr(defaults, self.default) if self.default else 0.0
        return (self.share, self.plus + house)


class Row(NamedTuple):
    """One line of a signature: in these states this quantity lies between these limits.

    `loads` empty means any load. `proves` names the defining states that the line settles.
    A line that is not `strict` supports when it fits and says nothing when it does not.
    The three `_from` fields name house defaults in minutes and matter only asleep: from how
    long a reading counts as met, as proof, and as a contradiction.
    """

    states: tuple[State, ...]
    quantity: Quantity
    low: Limit | None
    high: Limit | None
    against: Against
    loads: tuple[Load, ...]
    proves: tuple[Defining, ...]
    strict: bool
    meets_from: str
    proves_from: str
    contradicts_from: str
    note: str
    source: str


class Signature(NamedTuple):
    """What one kind of pin reads. Several signatures may belong to one function.

    `defining` maps the name of each defining state to what has to be measured, in words.
    `partner` is the signature of the other wire of a pair, or "". `loads` are the loads that
    may ever be put on such a pin.
    """

    id: str
    function: Function
    name: str
    defining: dict[Defining, str]
    rows: tuple[Row, ...]
    loads: tuple[Load, ...] = ()
    partner: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Expected:
    """A row of a signature with the house defaults put in. Minutes count only asleep.

    `house` names the defaults that set its limits, `waits` those that set its minutes. What lies
    outside the limits and in `tolerated` says nothing, instead of contradicting.
    """

    states: tuple[State, ...]
    quantity: Quantity
    low: Bound | None
    high: Bound | None
    against: Against
    loads: tuple[Load, ...]
    proves: tuple[Defining, ...]
    strict: bool
    meets_from_min: float
    proves_from_min: float
    contradicts_from_min: float
    note: str
    source: str
    needs_battery: bool
    house: tuple[str, ...] = ()
    waits: tuple[str, ...] = ()
    tolerated: Band | None = None

    @property
    def band(self) -> Band:
        """What passes."""
        return Band(self.low, self.high)


class Nominal(NamedTuple):
    """The speaker on a pair: its nominal ohms, and whether another may stand beside it."""

    ohm: float
    shared: bool


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """A signature ready for use: rows found by (state, quantity).

    `nominal` is the speaker that its ohms were narrowed to, None where they were not.
    """

    id: str
    function: Function
    name: str
    defining: dict[Defining, str]
    rows: tuple[Expected, ...]
    cells: dict[tuple[State, Quantity], tuple[Expected, ...]]
    loads: tuple[Load, ...]
    partner: str
    note: str
    nominal: Nominal | None = None


def resolve(signature: Signature, defaults: HouseDefaults) -> Kind:
    """Return `signature` with the house defaults put into its limits."""
    rows = tuple(_resolve_row(row, defaults) for row in signature.rows)
    return Kind(
        signature.id,
        signature.function,
        signature.name,
        signature.defining,
        rows,
        by_cell(rows),
        signature.loads,
        signature.partner,
        signature.note,
    )


def by_cell(rows: Iterable[Expected]) -> dict[tuple[State, Quantity], tuple[Expected, ...]]:
    """Return rows by (state, quantity)."""
    cells: dict[tuple[State, Quantity], tuple[Expected, ...]] = {}
    for row in rows:
        for state in row.states:
            key = (state, row.quantity)
            cells[key] = (*cells.get(key, ()), row)
    return cells


def _resolve_row(row: Row, defaults: HouseDefaults) -> Expected:
    low = row.low.bound(defaults) if row.low else None
    high = row.high.bound(defaults) if row.high else None
    return Expected(
        row.states,
        row.quantity,
        low,
        high,
        row.against,
        row.loads,
        row.proves,
        row.strict,
        _minutes(row.meets_from, defaults),
        _minutes(row.proves_from, defaults),
        _minutes(row.contradicts_from, defaults),
        row.note,
        row.source,
        Band(low, high).moves,
        _named(limit.default for limit in (row.low, row.high) if limit),
        _named((row.meets_from, row.proves_from, row.contradicts_from))
        if "asleep" in row.states
        else (),
    )


def _named(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in names if name))


def _minutes(name: str, defaults: HouseDefaults) -> float:
    return float(getattr(defaults, name)) if name else 0.0

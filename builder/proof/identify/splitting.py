"""Which measurement tells two kinds of pin apart."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from builder.model.names import LOAD_NAMES, QUANTITY_NAMES, STATE_NAMES
from builder.model.words import Load, Quantity, State
from builder.proof.signatures.shapes import Against, Expected, Kind
from builder.proof.signatures.table import AGAINST_WORDS, COST_WEIGHT, LOAD_EFFORT, STATE_COST
from builder.proof.words import Defining

TEST_BATTERY_V = 12.4
"""Battery volts [V] at which bands are compared: a rested battery with the key turned."""


class Measurement(NamedTuple):
    """Something to measure: state, quantity, reference and load."""

    state: State
    quantity: Quantity
    against: Against
    load: Load

    @property
    def effort(self) -> int:
        """What it costs, on the scale of the tell-apart questions."""
        return COST_WEIGHT[STATE_COST[self.state]] + (LOAD_EFFORT if self.load != "none" else 0)

    @property
    def words(self) -> str:
        """The measurement as an instruction."""
        how = f"{QUANTITY_NAMES[self.quantity][0]} against {AGAINST_WORDS[self.against]}"
        load = "" if self.quantity == "ohm" else f", {LOAD_NAMES[self.load]}"
        return f"{STATE_NAMES[self.state]}: {how}{load}"


class Span(NamedTuple):
    """What a kind reads in one measurement, at `TEST_BATTERY_V`.

    `fresh` says that the line settles a defining state that no reading has settled yet.
    """

    low: float
    high: float
    strict: bool
    row: Expected
    fresh: bool


def measurements_of(kind: Kind) -> Iterator[tuple[Measurement, Expected]]:
    """Yield everything that the signature speaks of; a line for any load is read without one."""
    for row in kind.rows:
        loads: tuple[Load, ...] = row.loads or ("none",)
        for state in row.states:
            for load in loads:
                yield Measurement(state, row.quantity, row.against, load), row


def spans_of(kind: Kind, settled: frozenset[Defining] = frozenset()) -> dict[Measurement, Span]:
    """Return what the kind reads in each measurement; `settled` names its defining states that
    readings have settled."""
    return {measurement: _span(row, settled) for measurement, row in measurements_of(kind)}


def _span(row: Expected, settled: frozenset[Defining]) -> Span:
    low = -math.inf if row.low is None else row.low[0] * TEST_BATTERY_V + row.low[1]
    high = math.inf if row.high is None else row.high[0] * TEST_BATTERY_V + row.high[1]
    fresh = row.strict and bool(set(row.proves) - settled)
    return Span(low, high, row.strict, row, fresh)


def separation(one: Span | None, other: Span | None) -> float:
    """How well a measurement tells two kinds apart: 1 always, 0 never.

    0.5 when only one of them is contradicted by the other's reading; 0.25 when the table speaks
    of one of them only and the reading would settle one of its defining states. Chosen by this
    project.
    """
    if one is None or other is None:
        known = one or other
        return 0.25 if known is not None and known.fresh else 0.0
    if one.low <= other.high and other.low <= one.high:
        return 0.0
    if one.strict and other.strict:
        return 1.0
    return 0.5 if one.strict or other.strict else 0.0


def deciding_measurement(ours: Iterable[Kind], theirs: Iterable[Kind]) -> Measurement | None:
    """Return the cheapest unloaded measurement that tells every one of `ours` from `theirs`.

    None when no line of the table does.
    """
    left, right = [spans_of(kind) for kind in ours], [spans_of(kind) for kind in theirs]
    scored = [
        (measurement.effort, index, measurement)
        for index, measurement in enumerate(_common(left, right))
        if min(separation(a[measurement], b[measurement]) for a in left for b in right) >= 1
    ]
    return min(scored)[2] if scored else None


def _common(
    left: list[dict[Measurement, Span]], right: list[dict[Measurement, Span]]
) -> list[Measurement]:
    if not left or not right:
        return []
    return [
        measurement
        for measurement in left[0]
        if measurement.load == "none" and all(measurement in spans for spans in (*left, *right))
    ]

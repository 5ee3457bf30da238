"""What a pin should read, from its signature to phrases: one line a row of the signature."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from builder.figures import at_least, at_most, within
from builder.model.house_defaults import HouseDefaults
from builder.model.names import LOAD_NAMES, READING_UNITS, STATE_NAMES, function_name
from builder.model.words import Function, State
from builder.proof.band import Band, Bound
from builder.proof.house import house_of_rows, house_words, note_of
from builder.proof.signatures.shapes import Against, Kind
from builder.proof.signatures.shapes import Expected as Row
from builder.rendering.pages.wording import anchor
from builder.rendering.templates import fill

_AGAINST: dict[Against, str] = {
    "ground": "",
    "other_leg": "across the pair, ",
    "elsewhere": "against another cavity, ",
}


class Expected(NamedTuple):
    """What a pin of its function should read in one state, as two phrases."""

    state: str
    reads: str
    note: str = ""


class ExpectedKind(NamedTuple):
    """One kind that a pin may be of, and what such a pin reads, state by state."""

    name: str
    lines: tuple[Expected, ...]
    note: str
    house: tuple[str, ...] = ()  # the house defaults that set the limits, in words


def expected_kinds(kinds: Iterable[Kind], defaults: HouseDefaults) -> tuple[ExpectedKind, ...]:
    """Return every kind with its lines, in the order given, and the defaults behind them."""
    return tuple(
        ExpectedKind(
            kind.name,
            expected_lines(kind.rows),
            kind.note,
            house_words(house_of_rows(kind.rows), defaults),
        )
        for kind in kinds
    )


@lru_cache(maxsize=256)
def expected_block(kinds: tuple[Kind, ...], function: Function, defaults: HouseDefaults) -> Markup:
    """Return what a pin should read as a piece of a page one folder deep; empty without kinds.

    Many pins of a book share it, so it is filled once and kept.
    """
    if not kinds:
        return Markup("")
    said = expected_kinds(kinds, defaults)
    house = note_of(words for kind in said for words in kind.house)
    return fill("expected.html", kinds=said, function=function, house=house)


class ExpectedOnce(NamedTuple):
    """What pins of one kind should read: its place on the page, of which function, the block."""

    anchor: str
    name: str
    block: Markup


def each_once(blocks: Iterable[tuple[Function, Markup]]) -> dict[Markup, ExpectedOnce]:
    """Return what pins should read, each by its block and in their order: many pins share one."""
    found: dict[Markup, ExpectedOnce] = {}
    for function, block in blocks:
        if block and block not in found:
            name = function_name(function)
            same = sum(each.name == name for each in found.values())
            at = anchor("reads", function, *([str(same + 1)] if same else []))
            found[block] = ExpectedOnce(at, name, block)
    return found


def expected_lines(rows: Iterable[Row]) -> tuple[Expected, ...]:
    """Return the rows of a signature as (states, what it reads)."""
    return tuple(
        Expected(" · ".join(_state(state, row) for state in row.states), reads(row), row.note)
        for row in rows
    )


def _state(state: State, row: Row) -> str:
    if state == "asleep" and row.proves_from_min:
        return f"{STATE_NAMES[state]} for {row.proves_from_min:g} min or more"
    return STATE_NAMES[state]


def reads(row: Row) -> str:
    """What a line of a signature reads: reference, band and load."""
    loaded = [] if "none" in row.loads else [LOAD_NAMES[load] for load in row.loads]
    load = f", under {' or '.join(loaded)}" if loaded else ""
    band = band_phrase(row.band, READING_UNITS[row.quantity])
    return f"{_AGAINST[row.against]}{band}{load}"


def band_phrase(band: Band, unit: str) -> str:
    """A band as it is printed: figures in `unit`, or what is added to the battery's volts."""
    low, high = band
    if low is None and high is None:
        return f"some {unit}, no band"
    if low is None:  # so there is an upper one
        return f"at most {_bound(high, unit, at_most)} {unit}"
    if high is None:
        return f"{_bound(low, unit, at_least)} {unit} or more"
    if low[0] == high[0] == 0 and low[1] == -high[1]:
        return f"at most {_bound(high, unit, at_most)} {unit} either way"
    if band.moves:
        return f"{_bound(low, unit, at_least)} V to {_bound(high, unit, at_most)} V"
    least, most = within(low[1], high[1], unit)
    return f"{least} to {most} {unit}".replace("-", "−")


def _bound(bound: Bound | None, unit: str, printed: Callable[[float, str], str]) -> str:
    """A limit in words: a figure, or the battery's volts with a figure added or taken off."""
    share, offset = bound or (0.0, 0.0)
    said = printed(offset, unit).replace("-", "−")
    if share == 0:
        return "open" if offset == float("inf") else said
    battery = "battery" if share == 1 else f"{share:g} × battery"
    if offset == 0:
        return battery
    return f"{battery} {'+' if offset > 0 else '−'} {said.removeprefix('−')}"

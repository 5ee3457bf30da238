"""Which rows of a vehicle answer one fact of a question, and how well their colours fit.

Mirrored line by line in the page's `finder-answers.js`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.finder.entries import Entry, Row, cavities, colours
from builder.finder.understanding import Colour, Fact
from builder.finder.words import INSTEAD, MAIN_ANSWERS
from builder.model.said.channels import PARTS
from builder.model.said.functions import SWITCHED
from builder.model.words import Function

EXACT, LIKE, TURNED = 3, 2, 1
"""The colour as asked; a wire that has it beside another; base and stripe the other way round."""
ANY_COLOUR = EXACT


class FactRows(NamedTuple):
    """The rows that answer a fact, best first; `colour` says how well the best one fits.

    `colour` is 0 when no wire has the colour: the rows then are what was asked for but for that.
    `instead` is what serves in the place of a fact that has no row; it is no answer.
    """

    rows: tuple[Row, ...]
    colour: int
    note: str
    instead: tuple[Row, ...] = ()


def rows_for(fact: Fact, entry: Entry) -> FactRows:
    """Return the rows of a vehicle that answer a fact; the spots are places here, not names."""
    found = [(_level(fact.colours, row), row) for row in entry.rows if _fits(fact, row)]
    kept = [(level, row) for level, row in found if level]
    kept.sort(key=lambda pair: (_order(fact.functions, pair[1]), -pair[0]))
    best = max((level for level, _ in kept), default=0)
    kept = [(level, row) for level, row in kept if level > TURNED or best == TURNED]
    if found and not kept and _asks_more_than_colours(fact):
        kept = sorted(((0, row) for _, row in found), key=lambda p: _order(fact.functions, p[1]))
    rows = tuple(row for _, row in kept)
    instead = () if rows else _instead(fact, entry)
    return FactRows(rows, best, _note(fact, entry, best, rows, instead), instead)


def _instead(fact: Fact, entry: Entry) -> tuple[Row, ...]:
    """What serves where nothing is what was asked for; nothing where a place was asked for."""
    serving = INSTEAD.get(fact.functions[0]) if fact.functions else None
    if not serving or fact.plugs or fact.cavities or fact.spots:
        return ()
    meant = Fact(fact.said, serving.functions, fact.channels)
    rows = [row for row in entry.rows if _fits(meant, row)]
    return tuple(sorted(rows, key=lambda row: _order(meant.functions, row)))


def _asks_more_than_colours(fact: Fact) -> bool:
    """Whether a fact says which wire it means: then that wire answers whatever its colour is."""
    return any((fact.functions, fact.plugs, fact.cavities, fact.spots))


def main_rows(entry: Entry) -> tuple[Row, ...]:
    """Return what is answered when the question asks for no wire."""
    fact = Fact("", MAIN_ANSWERS)
    return rows_for(fact, entry).rows


def _fits(fact: Fact, row: Row) -> bool:
    return (
        (not fact.functions or row.function in fact.functions)
        and channel_fits(row.channel, fact.channels)
        and (not fact.plugs or row.plug.lower() in fact.plugs)
        and (not fact.cavities or not set(fact.cavities).isdisjoint(cavities(row)))
        and all(_at_spot(row, one.word, one.plug, one.cavity) for one in fact.spots)
    )


def _at_spot(row: Row, word: str, plug: str, cavity: str) -> bool:
    """Whether a row is on the plug "x2", or in cavity 2 of the plug "x"."""
    here = row.plug.lower()
    return here == word or (here == plug and cavity in cavities(row))


def channel_fits(channel: str, wanted: Sequence[str]) -> bool:
    """Places are alternatives ("front" is two); woofer or tweeter narrows them."""
    places = [word for word in wanted if word not in PARTS]
    parts = [word for word in wanted if word in PARTS]
    placed = not places or any(
        channel == place or channel.startswith(f"{place}-") for place in places
    )
    return placed and (not parts or any(channel.endswith(part) for part in parts))


_LATE: dict[Function, int] = {"unknown": 1, "not_used": 2}


def _order(wanted: Sequence[str], row: Row) -> int:
    """As the functions were asked for; what has none comes last where all were."""
    if wanted:
        return wanted.index(row.function)
    return _LATE.get(row.function, 0)


def _level(wanted: Sequence[Colour], row: Row) -> int:
    """How well a row's wires fit every colour asked for; 0 when they do not."""
    if not wanted:
        return ANY_COLOUR
    legs = colours(row)
    return min(max((_leg_level(colour, leg) for leg in legs), default=0) for colour in wanted)


def _leg_level(colour: Colour, wire: str) -> int:
    base, _, stripe = wire.partition("/")
    if (base, stripe) == colour:
        return EXACT
    if colour.stripe:
        return TURNED if (stripe, base) == colour else 0
    return LIKE if colour.base in (base, stripe) else 0


def _note(fact: Fact, entry: Entry, best: int, rows: Sequence[Row], instead: Sequence[Row]) -> str:
    """What has to be said with the rows of a fact, or with those that serve in their place."""
    if entry.no_switched and any(one in SWITCHED for one in fact.functions[:1]):
        return entry.no_switched
    if not rows:
        missing = f"{fact.said}: not recorded for this car" if fact.said else NOT_RECORDED[:-1]
        return f"{missing}; {INSTEAD[fact.functions[0]].said}." if instead else f"{missing}."
    if best == 0:
        return "No wire of that colour here; this is what is recorded."
    if best != TURNED:
        return ""
    asked = next(colour for colour in fact.colours if colour.stripe)
    return (
        f"No {asked.base} wire with {asked.stripe} stripe here; "
        f"{asked.stripe} with {asked.base} stripe is."
    )


NOT_RECORDED = "Not recorded for this car."

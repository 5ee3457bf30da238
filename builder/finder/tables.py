"""The finder's words and entries as plain data for the page: one index, and parts beside it.

The index says which vehicles there are and which function stands in which cavity; it answers who
fits. A part holds the wires, grades and tell-apart questions of some hundred vehicles and is
fetched when one of them is shown. Vehicles stand in the order of the book, as columns; texts,
blocks of pins, sets of wires and sets of grades are stored once and named by number.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from types import MappingProxyType
from typing import Any, Literal, NamedTuple

from builder.finder.asking import Sisters
from builder.finder.entries import BANDS, Entry, RowGrade
from builder.finder.numbered import Numbered
from builder.finder.search import book_order
from builder.finder.word_data import word_data
from builder.model.names import COST_WORDS
from builder.model.words import Function, GradeBand

MOST_IN_PART = 400
"""Vehicles of one part; a model is never divided."""
GRADES: tuple[RowGrade, ...] = (*BANDS, "measured")
"""Every grade a row can have; a row's grade is one digit into this list."""


VehicleColumn = Literal["from", "years", "variant", "id", "layout"]
WireColumn = Literal["wires", "grades", "shells", "plans"]
"""Columns of the index and of a part; `theme/finder.js` reads them by these names."""


class PageNames(NamedTuple):
    """What the page calls things: functions, marks of the grades, colours of the swatches, and what
    a pin of each function reads, state by state."""

    functions: dict[Function, str]
    grade_marks: dict[GradeBand, str]
    wire_srgb_hex: dict[str, str | None]
    states: Mapping[Function, Sequence[tuple[str, str, bool]]] = MappingProxyType({})


class FinderData(NamedTuple):
    """The index and the parts, as data for JSON."""

    book: dict[str, Any]
    parts: tuple[dict[str, Any], ...]


def finder_data(
    entries: Sequence[Entry],
    names: PageNames,
    sisters: Sequence[Sisters] = (),
    renamed: Mapping[str, str] | None = None,
) -> FinderData:
    """Return what the page needs to answer as the command does; `renamed` is by old id."""
    ordered = sorted(entries, key=book_order)
    spans = tuple(_spans(ordered))
    index = {
        **word_data(),
        **_vehicles(ordered),
        "functionNames": names.functions,
        "gradeMarks": names.grade_marks,
        "wireHex": names.wire_srgb_hex,
        "states": dict(names.states),
        "grades": GRADES,
        "costWords": COST_WORDS,
        "parts": [first for first, _ in spans],
        "renamed": dict(renamed or {}),
        "private": [at for at, entry in enumerate(ordered) if entry.private],
    }
    by_first = {group.ids[0]: group for group in sisters}
    return FinderData(index, tuple(_part(ordered[a:b], a, by_first) for a, b in spans))


def _spans(ordered: Sequence[Entry]) -> Iterator[tuple[int, int]]:
    """Where parts begin and end: whole models while they fit, one after another."""
    start = end = 0
    for _, group in groupby(ordered, key=lambda entry: (entry.make, entry.model)):
        size = len(list(group))
        if end > start and end + size - start > MOST_IN_PART:
            yield start, end
            start = end
        end += size
    if end > start:
        yield start, end


def _vehicles(ordered: Sequence[Entry]) -> dict[str, Any]:
    variants, ids, layouts = (Numbered() for _ in range(3))
    numbered = _Layouts()
    columns: dict[VehicleColumn, list[int]] = {
        "from": [entry.year_from for entry in ordered],
        "years": [entry.year_to - entry.year_from for entry in ordered],
        "variant": [variants.number(entry.variant) for entry in ordered],
        "id": [ids.number(id_pattern(entry)) for entry in ordered],
        "layout": [layouts.number(numbered.layout(entry)) for entry in ordered],
    }
    return {
        "makes": _makes(ordered),
        "columns": columns,
        "variants": variants.all,
        "ids": ids.all,
        "blocks": numbered.blocks.all,
        "layouts": layouts.all,
        "texts": numbered.texts.all,
    }


def _makes(ordered: Sequence[Entry]) -> list[Any]:
    """[make, [model, how many, model, how many ...]] in the order of the book."""
    return [
        [make, [part for model, group in groupby(of_make, key=lambda e: e.model)
                for part in (model, len(list(group)))]]
        for make, of_make in groupby(ordered, key=lambda entry: entry.make)
    ]  # fmt: skip


def id_pattern(entry: Entry) -> str:
    """The id with "@" for make and model and "#2" for two years after the first, if it has them."""
    start = plain_slug(f"{entry.make} {entry.model}")
    if not f"{entry.id}-".startswith(f"{start}-"):
        return entry.id
    rest = entry.id[len(start) :]
    for later in range(10):
        year = f"-{entry.year_from + later}"
        if f"{rest}-".startswith(f"{year}-"):
            return f"@-#{later}{rest[len(year) :]}"
    return f"@{rest}"


def plain_slug(name: str) -> str:
    """Lower case with hyphens for spaces; the page makes the same."""
    return name.lower().replace(" ", "-")


class _Layouts:
    """The layouts of vehicles by number; of each that many share the numbers are found once."""

    def __init__(self) -> None:
        self.blocks, self.texts = Numbered(), Numbered()
        self._known: dict[tuple[Any, ...], tuple[Any, ...]] = {}

    def layout(self, entry: Entry) -> tuple[Any, ...]:
        """(why no switched wire, plug, block of pins, plug, block ...), all by number."""
        said = tuple(
            (row.plug, row.function, row.channel, row.cavity, row.warning) for row in entry.rows
        )
        known = self._known.get((entry.no_switched, said))
        if known is None:
            known = self._known[entry.no_switched, said] = self._made(entry.no_switched, said)
        return known

    def _made(self, no_switched: str, said: tuple[tuple[str, ...], ...]) -> tuple[Any, ...]:
        texts = self.texts
        parts = [texts.number(no_switched)]
        for plug, rows in groupby(said, key=lambda row: row[0]):
            pins = tuple(texts.number(value) for row in rows for value in row[1:])
            parts += [texts.number(plug), self.blocks.number(pins)]
        return tuple(parts)


def _part(entries: Sequence[Entry], start: int, sisters: dict[str, Sisters]) -> dict[str, Any]:
    """Wires and grades of each vehicle by number, and the questions between sister records.

    `start` is the place of the first of them in the book.
    """
    texts, wires, grades, shells, plans = (Numbered() for _ in range(5))
    columns: dict[WireColumn, list[int]] = {
        "wires": [wires.number(tuple(texts.number(r.wire) for r in e.rows)) for e in entries],
        "grades": [
            grades.number("".join(str(GRADES.index(row.grade)) for row in entry.rows))
            for entry in entries
        ],
        "shells": [shells.number(tuple(sum(entry.shells, ()))) for entry in entries],
        "plans": [plans.number(entry.plans) for entry in entries],
    }
    place = {entry.id: start + at for at, entry in enumerate(entries)}
    groups = [sisters[one] for one in sorted(place) if one in sisters]
    return {
        "wires": columns["wires"],
        "grades": columns["grades"],
        "shells": columns["shells"],
        "plans": columns["plans"],
        "shellSets": shells.all,
        "planSets": plans.all,
        "sisters": [_sisters(group, place, texts) for group in groups],
        "wireSets": wires.all,
        "gradeSets": grades.all,
        "texts": texts.all,
    }


def _sisters(group: Sisters, place: dict[str, int], texts: Numbered) -> list[Any]:
    """A group of sisters as lists: vehicles are places in the book."""
    asks = [
        [
            texts.number(ask.question),
            ask.cost,
            [[texts.number(c.words), [place[one] for one in c.leaves]] for c in ask.choices],
        ]
        for ask in group.asks
    ]
    same = [[place[one], place[other]] for one, other in group.same]
    return [[place[one] for one in group.ids], asks, same]

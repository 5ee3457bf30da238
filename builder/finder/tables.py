"""The finder's tables and entries as plain data for the page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builder.finder.asking import COST_WORDS, Sisters
from builder.finder.entries import Entry
from builder.finder.words import (
    CHANNEL_WORDS,
    COLOUR_WORDS,
    FUNCTION_WORDS,
    LONGEST_WORD,
    MAIN_ANSWERS,
    NOISE,
)


def page_data(
    entries: Sequence[Entry], function_names: dict[str, str], sisters: Sequence[Sisters] = ()
) -> dict[str, Any]:
    """Return what `finder.js` needs: word tables, names of functions, the entries, and the
    questions between records of one model.

    Rows are lists whose texts are numbers into one table of texts: the same colours, grades
    and plugs come back thousands of times.
    """
    texts = _Texts()
    vehicles = [
        [
            *(entry.id, entry.make, entry.model, entry.variant, entry.year_from, entry.year_to),
            texts.number(entry.no_switched),
            [[texts.number(value) for value in row] for row in entry.rows],
        ]
        for entry in sorted(entries, key=lambda entry: entry.id)
    ]
    place: dict[str, int] = {str(vehicle[0]): at for at, vehicle in enumerate(vehicles)}
    return {
        "functionWords": FUNCTION_WORDS,
        "channelWords": CHANNEL_WORDS,
        "colourWords": COLOUR_WORDS,
        "noise": sorted(NOISE),
        "mainAnswers": MAIN_ANSWERS,
        "longestWord": LONGEST_WORD,
        "functionNames": function_names,
        "costWords": COST_WORDS,
        "sisters": [_sisters(group, place, texts) for group in sisters],
        "texts": texts.all,
        "vehicles": vehicles,
    }


def _sisters(group: Sisters, place: dict[str, int], texts: _Texts) -> list[Any]:
    """A group of sisters as lists: vehicles are numbers into the list of vehicles."""
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


class _Texts:
    """Texts by number, each stored once."""

    def __init__(self) -> None:
        self.all: list[str] = []
        self._numbers: dict[str, int] = {}

    def number(self, text: str) -> int:
        if text not in self._numbers:
            self._numbers[text] = len(self.all)
            self.all.append(text)
        return self._numbers[text]

"""Which record is my car? Questions between the records of one model, for page and command."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from builder.finder.asking import Ask, Choice, Sisters, same_among, worth_asking
from builder.finder.entries import Entry
from builder.finder.tables import plain_slug
from builder.proof.identify.choices import choices_of
from builder.proof.sisters.which_car import questions_between
from builder.rendering.terminal import PRIVATE
from builder.speller import nearest


class NoSuchModelError(Exception):
    """The book has no record of that make, model and year; the message says what it has."""


def sisters_in(entries: Iterable[Entry]) -> list[Sisters]:
    """Return the questions of every model that has more than one record."""
    models: defaultdict[tuple[str, str], list[Entry]] = defaultdict(list)
    for entry in entries:
        models[(entry.make, entry.model)].append(entry)
    return [sisters_between(group) for _, group in sorted(models.items()) if len(group) > 1]


def sisters_between(group: Sequence[Entry]) -> Sisters:
    """Return the smallest set of questions that tells the records of a group apart."""
    ordered = sorted(group, key=lambda entry: entry.id)
    ids = tuple(entry.id for entry in ordered)
    found = questions_between(ordered)
    asks = tuple(
        Ask(one.question, one.cost, tuple(Choice(*choice) for choice in choices_of(one, ids)))
        for one in found.ask
    )
    return Sisters(ids, asks, found.same)


@dataclass(frozen=True, slots=True)
class WhichCar:
    """Records that could all be one car, and what to ask, in order."""

    entries: tuple[Entry, ...]
    sisters: Sisters

    def title(self, record: str) -> str:
        """A record as a person would say it, and whether it is for this shop only."""
        found = next(entry for entry in self.entries if entry.id == record)
        return f"{found.title} ({PRIVATE})" if found.private else found.title

    def asks(self, open_ids: Sequence[str] | None = None) -> tuple[Ask, ...]:
        """The questions worth asking while these records are open; all of them at first."""
        ids = self.sisters.ids if open_ids is None else open_ids
        return worth_asking(self.sisters.asks, [i for i in ids if i in self.candidates()])

    def candidates(self) -> tuple[str, ...]:
        """The ids of the records."""
        return tuple(entry.id for entry in self.entries)

    def same(self) -> tuple[tuple[str, str], ...]:
        """The pairs of records that no question tells apart."""
        return same_among(self.sisters, self.candidates())

    def as_data(self) -> dict[str, Any]:
        """The questions as plain data; `leaves` are ids of records."""
        return {
            "candidates": [
                {"vehicle": e.id, "title": e.title, "private": e.private} for e in self.entries
            ],
            "ask": [
                {
                    "question": ask.question,
                    "cost": ask.cost,
                    "answers": [
                        {"answer": choice.words, "leaves": list(choice.leaves)}
                        for choice in ask.choices
                    ],
                }
                for ask in self.asks()
            ],
            "not_told_apart": [list(pair) for pair in self.same()],
        }


def which_car(entries: Sequence[Entry], make: str, model: str, year: int | None) -> WhichCar:
    """Return the records of a make and model (and year), with the questions between them.

    Raises:
        NoSuchModelError: there is none.
    """
    wanted = (_plain(make), _plain(model))
    of_model = [e for e in entries if (_plain(e.make), _plain(e.model)) == wanted]
    if not of_model:
        raise NoSuchModelError(_no_model(entries, make, model))
    fitting = [e for e in of_model if year is None or e.year_from <= year <= e.year_to]
    if not fitting:
        years = ", ".join(dict.fromkeys(f"{e.year_from} to {e.year_to}" for e in of_model))
        raise NoSuchModelError(f"no record of {make} {model} is of {year}; there are {years}")
    ordered = tuple(sorted(fitting, key=lambda entry: entry.id))
    return WhichCar(ordered, sisters_between(ordered))


def model_called_now(
    entries: Sequence[Entry], renamed: Mapping[str, str], make: str, model: str
) -> tuple[str, str]:
    """Return make and model of today of the records whose old ids began with those given.

    `renamed` is by old id. Make and model come back as they are when the book has them, when no
    old id begins so, or when the records are of several models today.
    """
    start = f"{plain_slug(f'{_plain(make)} {_plain(model)}')}-"
    ids = {now for was, now in renamed.items() if f"{was}-".startswith(start)}
    today = {(entry.make, entry.model) for entry in entries if entry.id in ids}
    known = {(_plain(entry.make), _plain(entry.model)) for entry in entries}
    if len(today) != 1 or (_plain(make), _plain(model)) in known:
        return make, model
    return today.pop()


def _plain(name: str) -> str:
    return " ".join(name.lower().replace("-", " ").split())


def _no_model(entries: Sequence[Entry], make: str, model: str) -> str:
    known = sorted({f"{entry.make} {entry.model}" for entry in entries})
    near = nearest(f"{make} {model}", known)
    said = f"no record is of {make} {model}"
    if near:
        return f"{said}; did you mean {near}?"
    return f"{said}; there are: {', '.join(known)}"

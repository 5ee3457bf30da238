"""Why nothing in the book answers a question: which word fits nobody, or does not go with which.

Mirrored line by line in the page's `finder-said.js`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from builder.finder.entries import Entry
from builder.finder.forgiven import listed, may_be
from builder.finder.grammar import LAST_YEAR
from builder.finder.names import Names, is_known, least_fit, name_words, named_makes
from builder.finder.understanding import Question, Years
from builder.finder.words import ASKED_BACK

NOTHING_ASKED = "These words ask for nothing: say a car, or what you look for."
MOST_MAKES = 3


class _Cars(NamedTuple):
    """The book in its order, and for each name asked the places of the vehicles it fits."""

    entries: Sequence[Entry]
    names: Sequence[Names]
    makes: dict[str, Names]
    fitting: dict[str, tuple[int, ...]]

    def least(self, name: str) -> int:
        return least_fit(name, self.names, True)

    def makes_of(self, places: Iterable[int]) -> tuple[str, ...]:
        return tuple(dict.fromkeys(self.entries[at].make for at in places))

    def makes_called(self, name: str) -> tuple[str, ...]:
        return tuple(m for m, own in self.makes.items() if own.fit(name, self.least(name)))


def missed(question: Question, entries: Sequence[Entry], names: Sequence[Names]) -> str:
    """Return in a sentence why no vehicle answers; `names` are those of the entries, in order."""
    if question == Question((), None, ()):
        return NOTHING_ASKED
    if asked := [n for n in question.names if n in ASKED_BACK and not is_known(n, names)]:
        return _asked_back(asked)
    makes = {entry.make: Names(tuple(name_words(entry.make))) for entry in entries}
    fitting = {name: _places(name, names) for name in question.names}
    cars = _Cars(entries, names, makes, fitting)
    if nobody := [name for name in question.names if not fitting[name]]:
        return f"No make, model, variant or part of this book is called {listed(nobody)}."
    named = named_makes(question.names, makes)
    every = {at for at, entry in enumerate(entries) if not named or entry.make in named}
    together = sorted(every.intersection(*(fitting[name] for name in question.names)))
    if not together:
        return _apart(question.names, cars)
    return _of_years(question, [entries[at] for at in together])


def _asked_back(words: Sequence[str]) -> str:
    """Short colours, each with what it could be."""
    said = (f'"{word}" {may_be(word)}' for word in words)
    return f"{', '.join(said)}: write it out."


def _places(name: str, names: Sequence[Names]) -> tuple[int, ...]:
    least = least_fit(name, names, True)
    return tuple(at for at, own in enumerate(names) if own.fit(name, least))


def _apart(asked: Sequence[str], cars: _Cars) -> str:
    """Every name is known, but no vehicle has them all."""
    called = [(name, cars.makes_called(name)) for name in asked]
    name, makes = next(((n, m) for n, m in called if m), ("", ()))
    if not makes:
        return f"No car of this book is called {_together(asked, cars)}."
    others = [one for one in asked if one != name]
    missing = [one for one in others if not _has(makes, one, cars)]
    if not missing:
        return f"No {' or '.join(makes)} is called {_together(others, cars)}."
    return " ".join(_not_of(makes, one, cars) for one in missing)


def _has(makes: Sequence[str], name: str, cars: _Cars) -> bool:
    return any(cars.entries[at].make in makes for at in cars.fitting[name])


def _not_of(makes: Sequence[str], name: str, cars: _Cars) -> str:
    others, said = cars.makes_called(name), " or ".join(makes)
    if others:
        return f"No {said} is a {' or '.join(others)}."
    have = cars.makes_of(cars.fitting[name])
    who = " and ".join(have) if len(have) <= MOST_MAKES else f"{len(have)} other makes"
    verb = "has" if len(have) == 1 else "have"
    return f"No {said} is called {_as_read(name, cars)}; {who} {verb} one."


def _together(asked: Sequence[str], cars: _Cars) -> str:
    return " and ".join(_as_read(name, cars) for name in asked) + " at once"


def _as_read(name: str, cars: _Cars) -> str:
    """A name in quotes, with the word it was read as when that is another."""
    own = cars.names[cars.fitting[name][0]].fit(name, cars.least(name)).own
    return f'"{name}"' if own == name else f'"{name}" (read as "{own}")'


def _of_years(question: Question, together: Sequence[Entry]) -> str:
    """Vehicles of these names are known: their years are others, or they lack what was asked."""
    years = question.years
    if years and not any(e.year_from <= years[1] and years[0] <= e.year_to for e in together):
        recorded = ", ".join(_span(*span) for span in _joined(together))
        return f"{_called(question, together)} recorded for {recorded}, not for {_span(*years)}."
    said = ", ".join(fact.said for fact in question.facts)
    return f"{said}: not recorded for any car of {_span(*years) if years else 'this book'}."


def _called(question: Question, together: Sequence[Entry]) -> str:
    if not question.names:
        return "The cars of this book are"
    models = dict.fromkeys(f"{entry.make} {entry.model}" for entry in together)
    return f"{next(iter(models))} is" if len(models) == 1 else "Cars of that name are"


def _joined(entries: Iterable[Entry]) -> list[Years]:
    """The years of vehicles, those that touch made one."""
    found: list[Years] = []
    for first, last in sorted((entry.year_from, entry.year_to) for entry in entries):
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(last, found[-1][1]))
        else:
            found.append((first, last))
    return found


def _span(first: int, last: int) -> str:
    if first == last:
        return str(first)
    if last == LAST_YEAR:
        return f"{first} and later"
    return f"{first} to {last}" if first else f"{last} and earlier"

"""The steps from a question to answers. Mirrored line by line in the page's `finder-answers.js`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.finder.entries import Entry, Row
from builder.finder.facts import ANY_COLOUR, main_rows, rows_for
from builder.finder.names import Names, complete, correct, may_be_dropped, names_of
from builder.finder.tokens import tokens_of
from builder.finder.understanding import Fact, Item, Question, items_of, question_of

MOST_VEHICLES = 8


class Answer(NamedTuple):
    """A vehicle that fits, the rows that answer, and what has to be said with them.

    Several vehicles mean: ask which.
    """

    entry: Entry
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()


def find(text: str, entries: Sequence[Entry]) -> list[Answer]:
    """Return the answers to a question, best first, at most `MOST_VEHICLES` vehicles."""
    return ranked(text, entries)[:MOST_VEHICLES]


def sisters_of(found: Sequence[Answer]) -> tuple[str, ...]:
    """Return the ids of every answer that is of the best answer's make and model, sorted."""
    first = found[0].entry if found else None
    return tuple(
        sorted(
            one.entry.id
            for one in found
            if first and (one.entry.make, one.entry.model) == (first.make, first.model)
        )
    )


def ranked(text: str, entries: Sequence[Entry]) -> list[Answer]:
    """Return every vehicle that answers a question, best first.

    The question is first read as it stands. Only when nothing fits is its last word taken for
    the beginning of one, are unknown words corrected, and are slips in names forgiven.
    """
    ordered = sorted(entries, key=book_order)
    names = [names_of(entry) for entry in ordered]
    for items, forgiving in _readings(text, names):
        found = _ranked(question_of(items), ordered, names, forgiving)
        if found:
            return found
    return []


def book_order(entry: Entry) -> tuple[str, str, int, str]:
    """The order of the book: make, model, first year, id."""
    return (entry.make, entry.model, entry.year_from, entry.id)


def _readings(text: str, names: Sequence[Names]) -> Iterator[tuple[tuple[Item, ...], bool]]:
    """The ways to read a question, the plainest first: its items, and whether slips are forgiven.

    A reading that is the same as one before is left out.
    """
    tokens = tokens_of(text)
    items = items_of(tokens)
    if not items:
        return
    yield items, False
    completed = complete(items) if tokens.typing else items
    if completed != items:
        yield completed, False
    corrected = correct(completed, names)
    if corrected != completed:
        yield corrected, False
    yield corrected, True
    if tokens.typing and may_be_dropped(items[-1]):
        yield items[:-1], False


def _ranked(
    question: Question, entries: Sequence[Entry], names: Sequence[Names], forgiving: bool
) -> list[Answer]:
    if question == Question((), None, ()):
        return []
    scored = []
    for at, entry in enumerate(entries):
        fit = _score(question, entry, names[at], forgiving)
        if fit is None:
            continue
        score, slips = fit
        facts = tuple(_places(fact, names[at]) for fact in question.facts)
        answer, missing, colour, fits = _answer(entry, facts)
        # A vehicle without a fitting row still answers when it was named: "no such wire".
        if score > 0 or fits:
            scored.append(((slips, -score, missing, -colour, at), answer))
    # A slip of the finger is forgiven only when nothing is spelt as it was asked.
    fewest = min((key[0] for key, _ in scored), default=0)
    kept = sorted((one for one in scored if one[0][0] == fewest), key=lambda one: one[0])
    return [answer for _, answer in kept]


def _score(
    question: Question, entry: Entry, names: Names, forgiving: bool
) -> tuple[int, int] | None:
    """How well names and years fit, and with how many slips; None when one does not fit."""
    years = question.years
    if years and not (entry.year_from <= years[1] and years[0] <= entry.year_to):
        return None
    total = slips = 0
    for name in question.names:
        fit = names.fit(name, forgiving)
        if not fit:
            return None
        total, slips = total + fit.score, slips + fit.slips
    spots = [spot.word for fact in question.facts for spot in fact.spots]
    return total + sum(names.fit(word, False).score for word in spots), slips


def _places(fact: Fact, names: Names) -> Fact:
    """The fact without the spots that are names of this vehicle."""
    if not fact.spots:
        return fact
    return fact._replace(spots=tuple(s for s in fact.spots if not names.fit(s.word, False)))


def _answer(entry: Entry, facts: Sequence[Fact]) -> tuple[Answer, int, int, bool]:
    """The answer of a vehicle, how many facts have no row, how well the colours fit, and whether
    any row is what was asked for, colour and all.
    """
    asked = [fact for fact in facts if fact[1:] != Fact("")[1:]]
    if not asked:
        told = (entry.no_switched,) if entry.no_switched else ()
        rows = main_rows(entry)
        return Answer(entry, rows, told), 0, ANY_COLOUR, bool(rows)
    found = [rows_for(fact, entry) for fact in asked]
    rows = tuple(dict.fromkeys(row for one in found for row in one.rows))
    notes = tuple(dict.fromkeys(one.note for one in found if one.note))
    missing = sum(not one.rows for one in found)
    fits = any(one.rows and one.colour for one in found)
    return Answer(entry, rows, notes), missing, min(one.colour for one in found), fits

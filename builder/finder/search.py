"""The steps from a question to answers. Mirrored line by line in the page's `finder-answers.js`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.finder.entries import Entry, Row
from builder.finder.facts import ANY_COLOUR, main_rows, rows_for
from builder.finder.forgiven import TOO_LONG, ReadAs, may_be, read_items, read_names
from builder.finder.misses import missed
from builder.finder.names import (
    SLIP,
    Names,
    complete,
    correct,
    least_fit,
    may_be_dropped,
    named_makes,
    names_of,
)
from builder.finder.old_ids import with_new_ids
from builder.finder.parts import Part, parts_said, plans_asked
from builder.finder.tokens import cut, tokens_of
from builder.finder.understanding import Fact, Item, Question, items_of, question_of

MOST_VEHICLES = 8


class Answer(NamedTuple):
    """A vehicle that fits, the rows that answer, and what has to be said with them.

    Several vehicles mean: ask which.
    """

    entry: Entry
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()


class Reply(NamedTuple):
    """Every vehicle that answers a question, best first, and what was forgiven to read it so.

    `missed` says why no vehicle answers; it is "" when one does, and when parts alone were named.
    `planned` are the converters whose plans are asked for.
    """

    answers: tuple[Answer, ...]
    read_as: tuple[ReadAs, ...]
    missed: str
    parts: tuple[Part, ...] = ()
    planned: tuple[Part, ...] = ()


class _Reading(NamedTuple):
    """One way to read a question; `dropped` is a last word that was left out, or ""."""

    items: tuple[Item, ...]
    forgiving: bool
    dropped: str = ""


def find(text: str, entries: Sequence[Entry]) -> list[Answer]:
    """Return the answers to a question, best first, at most `MOST_VEHICLES` vehicles."""
    return list(reply(text, entries).answers[:MOST_VEHICLES])


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


def reply(
    text: str,
    entries: Sequence[Entry],
    renamed: Mapping[str, str] | None = None,
    parts: Sequence[Part] = (),
) -> Reply:
    """Return every vehicle that answers a question, best first, and what has to be said of it.

    The parts that it names are taken out, and the rest is asked of the vehicles. It is first read
    as it stands. Only when nothing fits is its last word taken for the beginning of one, are
    unknown words corrected, and are slips in names forgiven. Old ids of vehicles are read as those
    of today, which `renamed` gives by the old. What is too long is cut, and said, before anything
    looks at it.
    """
    short, rest = cut(text)
    asked_for = with_new_ids(short, renamed or {})
    ordered = sorted(entries, key=book_order)
    names = [names_of(entry) for entry in ordered]
    said = parts_said(asked_for.text, parts, names)
    told = (*asked_for.read_as, *([ReadAs(rest, (), TOO_LONG)] if rest else []), *said.read_as)
    last = _Reading((), False)
    for reading in _readings(said.rest, names):
        asked = question_of(reading.items)
        found = _ranked(asked, ordered, names, reading.forgiving)
        if found:
            answers = tuple(_with_parts(answer, said.parts) for _, answer in found)
            places = [at for at, _ in found[:MOST_VEHICLES]]
            read = (*told, *_read_as(reading, asked, names, places))
            planned = plans_asked(asked_for.text, said.parts, parts)
            return Reply(answers, read, "", said.parts, planned)
        last = last if reading.dropped else reading
    alone = said.parts and not last.items
    why = "" if alone else missed(question_of(last.items), ordered, names)
    return Reply((), (*told, *read_items(last.items)), why, said.parts)


def _with_parts(answer: Answer, parts: Sequence[Part]) -> Answer:
    """The answer with a note for each converter that the vehicle has no plan with."""
    notes = [
        f"No plan with {part.name} is made for this car; its page has those that are."
        for part in parts
        if part.kind == "converter" and not part.has_plan_with(answer.entry)
    ]
    return answer._replace(notes=(*answer.notes, *notes)) if notes else answer


def _read_as(
    reading: _Reading, question: Question, names: Sequence[Names], shown: Sequence[int]
) -> tuple[ReadAs, ...]:
    read = read_items(reading.items) + read_names(question, names, shown, reading.forgiving)
    return (
        (*read, ReadAs(reading.dropped, (), may_be(reading.dropped)))
        if reading.dropped
        else tuple(read)
    )


def book_order(entry: Entry) -> tuple[str, str, int, str]:
    """The order of the book: make, model, first year, id."""
    return (entry.make, entry.model, entry.year_from, entry.id)


def _readings(text: str, names: Sequence[Names]) -> Iterator[_Reading]:
    """The ways to read a question, the plainest first; one that is the same as one before is
    left out.
    """
    tokens = tokens_of(text)
    items = items_of(tokens)
    if not items:
        return
    yield _Reading(items, False)
    completed = complete(items, names) if tokens.typing else items
    if completed != items:
        yield _Reading(completed, False)
    corrected = correct(completed, names)
    if corrected != completed:
        yield _Reading(corrected, False)
    yield _Reading(corrected, True)
    if tokens.typing and may_be_dropped(items[-1], names):
        yield _Reading(items[:-1], False, items[-1].said)


def _ranked(
    question: Question, entries: Sequence[Entry], names: Sequence[Names], forgiving: bool
) -> list[tuple[int, Answer]]:
    """Every vehicle that answers, best first, with its place in the book."""
    if question == Question((), None, ()):
        return []
    least = _least_fits(question, names, forgiving)
    makes = named_makes(question.names, {entry.make for entry in entries})
    scored = [
        found
        for at, entry in enumerate(entries)
        if not makes or entry.make in makes
        if (found := _scored(question, entry, at, names[at], least))
    ]
    # A slip of the finger is forgiven only when nothing is spelt as it was asked.
    fewest = min((key[0] for key, _ in scored), default=0)
    kept = sorted((one for one in scored if one[0][0] == fewest), key=lambda one: one[0])
    return [(key[-1], answer) for key, answer in kept]


def _scored(
    question: Question, entry: Entry, at: int, names: Names, least: dict[str, int]
) -> tuple[tuple[int, ...], Answer] | None:
    """The answer of one vehicle behind what it is ranked by; None when it does not answer."""
    fit = _score(question, entry, names, least)
    if fit is None:
        return None
    score, slips = fit
    facts = tuple(_places(fact, names, least) for fact in question.facts)
    answer, missing, colour, fits = _answer(entry, facts)
    # A vehicle without a fitting row still answers when it was named: "no such wire".
    return ((slips, -score, missing, -colour, at), answer) if score > 0 or fits else None


def _least_fits(question: Question, names: Sequence[Names], forgiving: bool) -> dict[str, int]:
    """Which fits count for each name, and for each spot that may be a name."""
    spots = [spot.word for fact in question.facts for spot in fact.spots]
    least = {word: least_fit(word, names, False) for word in spots}
    return least | {name: least_fit(name, names, forgiving) for name in question.names}


def _score(
    question: Question, entry: Entry, names: Names, least: dict[str, int]
) -> tuple[int, int] | None:
    """How well names and years fit, and with how many slips; None when one does not fit."""
    years = question.years
    if years and not (entry.year_from <= years[1] and years[0] <= entry.year_to):
        return None
    total = slips = 0
    for name in question.names:
        fit = names.fit(name, least[name])
        if not fit:
            return None
        total, slips = total + fit.score, slips + (fit.score == SLIP)
    spots = [spot.word for fact in question.facts for spot in fact.spots]
    return total + sum(names.fit(word, least[word]).score for word in spots), slips


def _places(fact: Fact, names: Names, least: dict[str, int]) -> Fact:
    """The fact without the spots that are names of this vehicle."""
    if not fact.spots:
        return fact
    spots = tuple(s for s in fact.spots if not names.fit(s.word, least[s.word]))
    return fact._replace(spots=spots)


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
    rows = tuple(dict.fromkeys(row for one in found for row in one.rows or one.instead))
    notes = tuple(dict.fromkeys(one.note for one in found if one.note))
    missing = sum(not one.rows for one in found)
    fits = any(one.rows and one.colour for one in found)
    return Answer(entry, rows, notes), missing, min(one.colour for one in found), fits

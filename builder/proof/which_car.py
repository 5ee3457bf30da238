"""Which record is my car? The cheapest set of questions that tells candidate records apart."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Protocol

from builder.model.vehicle import Question, Scope
from builder.model.words import Cost
from builder.proof.scopes import disjoint
from builder.proof.signature_table import COST_WEIGHT

_MOST_TRIED = 12
"""Up to this many questions every set of them is tried; beyond it they are picked one by one."""
_NEVER = "9999-13"
_ANY = frozenset({"*"})
"""The answers of a record that a question does not speak of: it may give any."""


class Candidate(Protocol):
    """A record that could be the car; a vehicle and its summary both are."""

    @property
    def id(self) -> str:
        """The record's id."""

    @property
    def scope(self) -> Scope:
        """Its scope."""

    @property
    def how_to_tell(self) -> tuple[Question, ...]:
        """Its tell-apart questions."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A question and the answers each record allows; `answers` maps a record id to them."""

    question: str
    cost: Cost
    answers: dict[str, frozenset[str]]

    @property
    def weight(self) -> int:
        """What asking it costs."""
        return COST_WEIGHT[self.cost]

    def parts(self, one: str, other: str) -> bool:
        """Whether the answer always tells these two records apart."""
        mine, theirs = self.answers.get(one, _ANY), self.answers.get(other, _ANY)
        return _ANY not in (mine, theirs) and not mine & theirs

    def allows(self, record: str, answer: str) -> bool:
        """Whether somebody with a car of this record could give the answer."""
        said = self.answers.get(record, _ANY)
        return answer in said or said >= _ANY

    def words(self) -> list[str]:
        """Every answer that some record gives, sorted."""
        return sorted({word for said in self.answers.values() for word in said} - _ANY)

    def remaining(self, ids: Sequence[str]) -> float:
        """Expected number of records left after the answer: Σ n²/N over the answers."""
        return sum(not self.parts(one, other) for one in ids for other in ids) / len(ids)


@dataclass(frozen=True, slots=True)
class Questions:
    """What to ask, in order, and which records no question of theirs tells apart."""

    ask: tuple[Asked, ...]
    same: tuple[tuple[str, str], ...]


def questions_between(candidates: Sequence[Candidate]) -> Questions:
    """Return the cheapest set of questions that tells as many candidates apart as possible.

    Cheapest counts look 1, panel 3, radio 8; the set is asked cheapest first, and among equals
    the one that leaves the fewest records first.
    """
    ids = [candidate.id for candidate in candidates]
    pairs = list(combinations(ids, 2))
    own = _own_questions(candidates)
    named = _name_questions(candidates)
    # A record's own question says where to look, so it wins over an equal one of the scopes, and
    # over the name of a trim, which a car with one more option bears all the same.
    asked = [*own, *_scope_questions(candidates), *(one for one in named if _adds(one, own, pairs))]
    settled = {pair for pair in pairs if any(question.parts(*pair) for question in asked)}
    chosen = _cheapest_cover([a for a in asked if any(a.parts(*p) for p in settled)], settled)
    chosen.sort(key=lambda one: (one.weight, one.remaining(ids), one.question))
    return Questions(tuple(chosen), tuple(pair for pair in pairs if pair not in settled))


def _adds(asked: Asked, own: Sequence[Asked], pairs: Sequence[tuple[str, str]]) -> bool:
    """Whether a question parts two records that no question of the records themselves parts."""
    return any(
        asked.parts(*pair) and not any(question.parts(*pair) for question in own) for pair in pairs
    )


def _cheapest_cover(asked: list[Asked], pairs: set[tuple[str, str]]) -> list[Asked]:
    if not pairs:
        return []
    covers = [frozenset(pair for pair in pairs if one.parts(*pair)) for one in asked]
    if len(asked) > _MOST_TRIED:
        return _greedy(asked, covers, pairs)
    best: tuple[int, int, tuple[int, ...]] | None = None
    for size in range(1, len(asked) + 1):
        for choice in combinations(range(len(asked)), size):
            if len(frozenset().union(*(covers[index] for index in choice))) == len(pairs):
                cost = (sum(asked[index].weight for index in choice), size, choice)
                best = cost if best is None or cost < best else best
    return [asked[index] for index in best[2]] if best else []


def _greedy(
    asked: list[Asked], covers: list[frozenset[tuple[str, str]]], pairs: set[tuple[str, str]]
) -> list[Asked]:
    open_pairs, chosen = set(pairs), []
    while open_pairs:
        gains = [len(c & open_pairs) / a.weight for a, c in zip(asked, covers, strict=True)]
        index = gains.index(max(gains))
        chosen.append(asked[index])
        open_pairs -= covers[index]
    return chosen


def _own_questions(candidates: Sequence[Candidate]) -> list[Asked]:
    """The records' own questions; the same question in two records is one question."""
    answers: dict[tuple[str, Cost], dict[str, set[str]]] = {}
    for candidate in candidates:
        for question in candidate.how_to_tell:
            key = (" ".join(question.question.split()), question.cost)
            for answer in question.answers:
                meant = candidate.id if answer.means == "this" else answer.means
                said = answer.answer.strip().lower()
                answers.setdefault(key, {}).setdefault(meant, set()).add(said)
    return [
        Asked(question, cost, {record: frozenset(said) for record, said in by_record.items()})
        for (question, cost), by_record in answers.items()
    ]


def _scope_questions(candidates: Sequence[Candidate]) -> Iterator[Asked]:
    """Questions that the scopes themselves answer."""
    yield Asked("Which model year is it?", "look", _each(candidates, _years))
    yield Asked("In which month was it built?", "look", _months(candidates))
    yield Asked("On which side is the steering wheel?", "look", _each(candidates, _side))
    yield Asked("Which body has it?", "look", _each(candidates, lambda scope: _list(scope.bodies)))
    yield Asked(
        "For which market was it made?", "look", _each(candidates, lambda s: _list(s.markets))
    )
    yield Asked(
        "What is printed on the radio?", "radio", _each(candidates, lambda s: _list(s.radios))
    )


def _name_questions(candidates: Sequence[Candidate]) -> list[Asked]:
    """Questions about trims and options: names, which the car in front of you may not show."""
    trims = _each(candidates, lambda scope: _list(scope.trims))
    return [Asked("Which trim is it?", "look", trims), *_option_questions(candidates)]


def _each(
    candidates: Sequence[Candidate], answers: Callable[[Scope], frozenset[str]]
) -> dict[str, frozenset[str]]:
    return {candidate.id: answers(candidate.scope) for candidate in candidates}


def _years(scope: Scope) -> frozenset[str]:
    return frozenset(str(year) for year in range(scope.year_from, scope.year_to + 1))


def _side(scope: Scope) -> frozenset[str]:
    return _ANY if scope.drive_side == "both" else frozenset({scope.drive_side})


def _list(words: tuple[str, ...]) -> frozenset[str]:
    return _ANY if not disjoint(words, ("",)) else frozenset(words)


def _months(candidates: Sequence[Candidate]) -> dict[str, frozenset[str]]:
    """Cut the months where a scope begins or ends, so that ranges can be compared.

    The answers are the stretches between the cuts, in words.
    """
    scopes = [candidate.scope for candidate in candidates]
    cuts = {_next_month(scope.build_to) for scope in scopes if scope.build_to}
    starts = ["", *sorted(cuts | {scope.build_from for scope in scopes if scope.build_from})]
    stretches = list(zip(starts, [*starts[1:], ""], strict=True))
    return {one.id: _built_in(one.scope, stretches) or _ANY for one in candidates}


def _built_in(scope: Scope, stretches: Sequence[tuple[str, str]]) -> frozenset[str]:
    """The stretches of months in which the cars of a scope were built."""
    if not scope.build_from and not scope.build_to:
        return _ANY
    first = scope.build_from or ""
    end = _next_month(scope.build_to) if scope.build_to else _NEVER
    return frozenset(
        _stretch_words(start, stop)
        for start, stop in stretches
        if first <= start < end and (stop or _NEVER) <= end
    )


def _stretch_words(start: str, stop: str) -> str:
    """The months from `start` to the one before `stop`; "" is no limit."""
    if not stop:
        return f"{start} or later"
    last = _previous_month(stop)
    if not start:
        return f"{last} or earlier"
    return start if start == last else f"{start} to {last}"


def _next_month(month: str) -> str:
    year, number = int(month[:4]), int(month[5:])
    return f"{year + number // 12:04}-{number % 12 + 1:02}"


def _previous_month(month: str) -> str:
    year, number = int(month[:4]), int(month[5:])
    return f"{year:04}-{number - 1:02}" if number > 1 else f"{year - 1:04}-12"


def _option_questions(candidates: Sequence[Candidate]) -> Iterator[Asked]:
    options = {o for c in candidates for o in (*c.scope.options_any, *c.scope.options_none)}
    for option in sorted(options):
        yield Asked(f"Has it the option {option}?", "look", _each(candidates, _has(option)))


def _has(option: str) -> Callable[[Scope], frozenset[str]]:
    def answers(scope: Scope) -> frozenset[str]:
        if scope.options_any == (option,):
            return frozenset({"yes"})
        return frozenset({"no"}) if option in scope.options_none else _ANY

    return answers

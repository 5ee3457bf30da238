"""Which record is my car? The cheapest set of questions that tells candidate records apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from builder.model.words import THIS, Cost
from builder.proof.sisters.questions import Asked, Candidate
from builder.proof.sisters.scope_questions import name_questions, scope_questions

_MOST_TRIED = 12
"""Up to this many questions every set of them is tried; beyond it they are picked one by one."""


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
    named = name_questions(candidates)
    # A record's own question says where to look, so it wins over an equal one of the scopes, and
    # over the name of a trim, which a car with one more option bears all the same.
    asked = [*own, *scope_questions(candidates), *(one for one in named if _adds(one, own, pairs))]
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
    for size, _ in enumerate(asked, 1):
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
                meant = candidate.id if answer.means == THIS else answer.means
                said = answer.answer.strip().lower()
                answers.setdefault(key, {}).setdefault(meant, set()).add(said)
    return [
        Asked(question, cost, {record: frozenset(said) for record, said in by_record.items()})
        for (question, cost), by_record in answers.items()
    ]

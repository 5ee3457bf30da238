"""Which of these records is my car? Questions in order, and what each answer leaves.

Mirrored line by line in the page's `finder.js`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import combinations
from typing import NamedTuple

from builder.model.words import Cost


class Choice(NamedTuple):
    """One answer to a question, and the ids of the records it leaves open."""

    words: str
    leaves: tuple[str, ...]


class Ask(NamedTuple):
    """A question, what asking it costs (look, panel, radio), and its answers."""

    question: str
    cost: Cost
    choices: tuple[Choice, ...]


class Sisters(NamedTuple):
    """The records of one model, and the questions that tell them apart, cheapest first.

    `same` are pairs that no question tells apart.
    """

    ids: tuple[str, ...]
    asks: tuple[Ask, ...]
    same: tuple[tuple[str, str], ...]


def worth_asking(asks: Iterable[Ask], open_ids: Collection[str]) -> tuple[Ask, ...]:
    """Return the questions, in their order, that part open records which those before do not.

    Their choices are cut down to the open records.
    """
    together = set(combinations(sorted(open_ids), 2))
    kept = []
    for ask in asks:
        cut = _cut(ask, open_ids)
        alike = {pair for c in cut.choices for pair in combinations(sorted(c.leaves), 2)}
        if together - alike:
            kept.append(cut)
            together &= alike
    return tuple(kept)


def _cut(ask: Ask, open_ids: Collection[str]) -> Ask:
    """The question for the open records; answers that leave the same are one."""
    words: dict[tuple[str, ...], list[str]] = {}
    for choice in ask.choices:
        left = tuple(record for record in choice.leaves if record in open_ids)
        words.setdefault(left, []).append(choice.words)
    return ask._replace(
        choices=tuple(Choice(" or ".join(said), left) for left, said in words.items())
    )


def same_among(sisters: Sisters, open_ids: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Return the open pairs that no question tells apart."""
    return tuple(pair for pair in sisters.same if set(pair) <= set(open_ids))

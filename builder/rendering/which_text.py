"""Which record is my car? Questions and answers as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from builder.finder.asking import Ask
from builder.model.names import COST_WORDS

NONE_LEFT = "no record of this book"


def questions_lines(
    count: int,
    asks: Sequence[Ask],
    same: Sequence[tuple[str, str]],
    title: Callable[[str], str],
) -> Iterator[str]:
    """The questions in order, each with what every answer leaves.

    Args:
        count: How many records could be the car.
        asks: What to ask, cheapest first.
        same: Pairs of records that no question tells apart.
        title: A record's id to its title.
    """
    if count < 2:
        return
    yield f"{count} records could be this car. Ask, in this order:"
    for number, ask in enumerate(asks, start=1):
        yield f"  {number}. {ask.question} ({COST_WORDS[ask.cost]})"
        for choice in ask.choices:
            left = " / ".join(title(record) for record in choice.leaves) or NONE_LEFT
            yield f"       {choice.words} → {left}"
    yield from same_lines(same, title)


def same_lines(same: Sequence[tuple[str, str]], title: Callable[[str], str]) -> Iterator[str]:
    """What to do about records that no question tells apart."""
    for one, other in same:
        yield f"  No question of the book tells {title(one)} from {title(other)}."
        yield "     Take neither for yours before its pins are proved on the car."

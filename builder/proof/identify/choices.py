"""The answers to a tell-apart question, as buttons: what a person says, and what that leaves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from builder.proof.sisters.questions import Asked


class Choice(NamedTuple):
    """One answer to a question as a person gives it, and the records it leaves open."""

    words: str
    leaves: tuple[str, ...]


def choices_of(asked: Asked, ids: Sequence[str]) -> tuple[Choice, ...]:
    """Return the answers to a question with what each leaves of `ids`, in the order of the words.

    Answers that leave the same records are one choice. A record that the question does not speak
    of is left open by every answer. An answer that leaves none speaks of a car that is not there.
    """
    words: dict[tuple[str, ...], list[str]] = {}
    for answer in asked.words():
        left = tuple(record for record in ids if asked.allows(record, answer))
        words.setdefault(left, []).append(answer)
    return tuple(Choice(_either(said), left) for left, said in words.items())


def _either(answers: Sequence[str]) -> str:
    """Several answers as one: "2016 to 2018", "coupe or hatch"."""
    if len(answers) > 1 and all(answer.isdecimal() for answer in answers):
        numbers = [int(answer) for answer in answers]
        if numbers == list(range(numbers[0], numbers[-1] + 1)):
            return f"{answers[0]} to {answers[-1]}"
    return " or ".join(answers)

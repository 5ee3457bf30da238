"""What was forgiven to read a question: it is always said with the answers.

Mirrored line by line in the page's `finder-said.js`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from builder.finder.names import Names, least_fit
from builder.finder.tokens import LONGEST_QUESTION
from builder.finder.understanding import Item, Question
from builder.finder.words import ASKED_BACK


class ReadAs(NamedTuple):
    """A word of a question and the words it was read as; none when it was left out.

    `why` says so where a word that was left out was not even looked at, else it is "".
    """

    said: str
    words: tuple[str, ...]
    why: str = ""


TOO_LONG = f"only the first {LONGEST_QUESTION} characters of a question are read"


def read_items(items: Iterable[Item]) -> list[ReadAs]:
    """Return the words that were taken for known ones."""
    return [
        ReadAs(one.typed, (f"cavity {one.said}" if one.kind == "cavity" else one.said,))
        for one in items
        if one.typed
    ]


def read_names(
    question: Question, names: Sequence[Names], shown: Iterable[int], forgiving: bool
) -> list[ReadAs]:
    """Return the names that were read as others in the vehicles shown, which are places in the
    book's `names`.
    """
    places, found = tuple(shown), []
    for name in question.names:
        least = least_fit(name, names, forgiving)
        own = dict.fromkeys(names[at].fit(name, least).own for at in places)
        if words := tuple(word for word in own if word != name):
            found.append(ReadAs(name, words))
    return found


def may_be(word: str) -> str:
    """What a short colour could be, in words; "" for every other word."""
    return f"could be {' or '.join(ASKED_BACK[word])}" if word in ASKED_BACK else ""


def said_of(read: Sequence[ReadAs]) -> str:
    """Return in one sentence what was forgiven, "" when nothing was."""
    return "; ".join(_said(one) for one in read) + "." if read else ""


def _said(one: ReadAs) -> str:
    if not one.words:
        return f'"{one.said}" left out' + (f": {one.why}" if one.why else "")
    return f'"{one.said}" read as {listed(one.words)}'


def listed(words: Sequence[str]) -> str:
    """Words in quotes with "or" before the last."""
    quoted = [f'"{word}"' for word in words]
    return " or ".join([", ".join(quoted[:-1]), quoted[-1]] if len(quoted) > 1 else quoted)

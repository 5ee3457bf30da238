"""The finder's word table as the handbook prints it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.finder.words import MEANINGS, NOISE
from builder.model.names import FUNCTION_NAMES
from builder.model.said.meaning import Meaning, MeaningKind
from builder.rendering.pages.wording import plain

_KINDS: tuple[tuple[MeaningKind, str], ...] = (
    ("function", "Functions"),
    ("channel", "Speakers"),
    ("colour", "Colours"),
)


def finder_words() -> str:
    """Return the tables of all known words, as Markdown, with the source of each row."""
    return "\n".join(line for kind, title in _KINDS for line in _table(kind, title)) + _noise()


def _table(kind: MeaningKind, title: str) -> Iterator[str]:
    yield from (f"### {title}", "", "| words | read as | source |", "|---|---|---|")
    for meaning in MEANINGS:
        if meaning.kind == kind:
            words = ", ".join(meaning.words)
            yield f"| {words} | {_read_as(meaning)} | {meaning.source} |"
    yield ""


_FUNCTIONS: dict[str, str] = dict(FUNCTION_NAMES.items())


def _read_as(meaning: Meaning) -> str:
    if meaning.kind == "function":
        return _in_order([_FUNCTIONS[one] for one in meaning.means])
    return " or ".join(plain(one) for one in meaning.means)


def _in_order(names: Sequence[str]) -> str:
    return ", then ".join(names)


def _noise() -> str:
    words = ", ".join(word for word in sorted(NOISE) if word.isalpha() and len(word) > 1)
    return f"\n### Words that ask for nothing\n\n{words}.\n"

"""The way back on paper: one sentence for each thing that hands do, in their order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.course.model import Act, Change, Course, Move
from builder.planning.course.sheet import grouped, said_of


def back_lines(course: Course) -> tuple[str, ...]:
    """Return a course as sentences; a turn of the key is said with what is looked at in it."""
    return tuple(_lines(course))


def _lines(course: Course) -> Iterator[str]:
    turned = ""
    for group in _single(course):
        first = group[0]
        text = "; ".join(move.said.text for move in group)
        if isinstance(first, Change) and first.rank == "key":
            turned = text
            continue
        if turned:
            text = f"{turned}{': ' if isinstance(first, Act) else '; '}{text}"
        named = isinstance(first, Act) and first.makes  # begins with the name of a terminal
        yield _sentence(group, text if named else _begun(text))
        turned = ""
    if turned:
        yield f"{_begun(turned)}."


def _single(course: Course) -> Iterator[list[Move]]:
    """Moves that one sentence has room for: of what is told step by step, each by itself."""
    for group in grouped(course.moves):
        if any(move.said.lines or move.said.caution for move in group):
            yield from ([move] for move in group)
        else:
            yield group


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]


def _sentence(group: Sequence[Move], text: str) -> str:
    """What is done, how, what to mind, and what must be true before the next."""
    said = group[0].said
    mind, lines = said_of(group)
    how = f": {'; '.join(lines)}" if lines else ""
    more = (("Mind", mind), ("Before the next", said.gate), ("Not yet", said.blocked))
    told = "".join(f" {name}: {what}." for name, what in more if what)
    return f"{text}{how}.{told}"

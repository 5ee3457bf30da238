"""The way back on paper: one sentence for each thing that hands do, in their order."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.course.model import Act, Change, Course, Said


def back_lines(course: Course) -> tuple[str, ...]:
    """Return a course as sentences; a turn of the key is said with what is looked at in it."""
    return tuple(_lines(course))


def _lines(course: Course) -> Iterator[str]:
    turned: list[str] = []
    for move in course.moves:
        if isinstance(move, Change) and move.rank == "key":
            turned.append(move.said.text)
            continue
        before = "; ".join(turned)
        joint = ": " if isinstance(move, Act) else "; "
        named = isinstance(move, Act) and move.makes  # begins with the name of a terminal
        text = f"{before}{joint}{move.said.text}" if before else move.said.text
        yield _sentence(move.said, text if named else _begun(text))
        turned = []
    if turned:
        yield _sentence(Said(""), _begun("; ".join(turned)))


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]


def _sentence(said: Said, text: str) -> str:
    """What is done, how, what to mind, and what must be true before the next."""
    how = f": {'; '.join(said.lines)}" if said.lines else ""
    more = (
        ("Mind", said.caution), ("Before the next", said.gate), ("Not yet", said.blocked),
    )  # fmt: skip
    told = "".join(f" {name}: {what}." for name, what in more if what)
    return f"{text}{how}.{told}"

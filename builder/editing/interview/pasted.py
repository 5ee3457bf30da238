"""A pin table as text from a mail or a notebook: its lines, read before any is taken."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.editing.drafts.pin_text import Meant, PinSaid
from builder.editing.drafts.question import AnswerError
from builder.editing.interview.pins import PlugSaid, read_line

PLUG_HEAD = r"\W*(?:plug|connector|conn|block)\s+([a-z][a-z0-9]{0,3})\b[^0-9]{0,30}$"
"""A line that says which plug follows; the page's script reads by the same pattern."""
HEADINGS = frozenset({"pin", "cavity", "function", "colour", "color", "wire", "no", "signal"})
_PLUG_HEAD = re.compile(PLUG_HEAD, re.I)
_QUOTED = re.compile(r"^[\s>]*")


class PastedLine(NamedTuple):
    """One line that was pasted: what it says of a pin, or why it is none; "" for nothing to say."""

    text: str
    said: PinSaid | None
    why: str = ""


def pasted_lines(text: str, plugs: Sequence[PlugSaid], meant: Meant) -> list[PastedLine]:
    """Return the lines of a pasted text; a line like "Plug B:" says which plug follows."""
    return list(_read(text, plugs, meant))


def _read(text: str, plugs: Sequence[PlugSaid], meant: Meant) -> Iterator[PastedLine]:
    here = plugs[0].id if len(plugs) == 1 else ""
    known = {plug.id for plug in plugs}
    for line in text.splitlines():
        bare = _QUOTED.sub("", line).strip().strip("|").strip()
        head = _PLUG_HEAD.match(bare)
        if head and head[1].upper() in known:
            here = head[1].upper()
        elif bare and not _is_heading(bare):
            yield _line(bare, plugs, here, meant)


def _is_heading(line: str) -> bool:
    words = re.findall(r"[a-z]+", line.lower())
    return not re.search(r"[0-9]", line) and (not words or len({*words} & HEADINGS) > 1)


def _line(line: str, plugs: Sequence[PlugSaid], here: str, meant: Meant) -> PastedLine:
    of_here = [plug for plug in plugs if plug.id == here]
    ways: list[Sequence[PlugSaid]] = [of_here, plugs] if of_here else [plugs]
    why = ""
    for each in ways:
        try:
            return PastedLine(line, read_line(line, each, meant))
        except AnswerError as error:
            why = why or str(error)
    return PastedLine(line, None, why)

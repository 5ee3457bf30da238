"""The keys of open mappings in the order of the schema, each with the comments about it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.editing.edits import Edit, after_line, line_start
from builder.editing.house_style import key_order
from builder.editing.layout import Entry, Part, read_layout
from builder.editing.style_fault import StyleFault, line_of
from builder.findings import DataPath
from builder.model.words import SchemaKind

_COMMENT_LINE = re.compile(r"[ \t]*#")
ANY_ORDER = frozenset({"treatment"})
"""Mappings whose keys are names: their order is the contributor's."""


def key_order_faults(text: str, kind: SchemaKind) -> list[StyleFault]:
    """Open mappings whose keys are not in the order of the schema; the outermost first.

    A mapping inside one that is reordered waits for the next round.
    """
    return list(_faults(text, read_layout(text), kind, ()))


def _faults(text: str, part: Part, kind: SchemaKind, path: DataPath) -> Iterator[StyleFault]:
    if part.kind == "mapping" and not part.flow and part.entries:
        places = {key: place for place, key in enumerate(key_order(kind, path))}
        wanted = sorted(part.entries, key=lambda e: places.get(str(e.key), len(places)))
        if wanted != part.entries and path[-1:] not in {(key,) for key in ANY_ORDER}:
            fault = _reordered(text, part, wanted)
            if fault is not None:
                yield fault
                return
    for entry in part.entries:
        if not part.flow:
            yield from _faults(text, entry.part, kind, (*path, entry.key))


def _reordered(text: str, part: Part, wanted: list[Entry]) -> StyleFault | None:
    """The mapping's lines in the order wanted; None where an entry does not own its lines."""
    column = part.entries[0].start - line_start(text, part.entries[0].start)
    chunks = _chunks(text, part, column)
    if chunks is None:
        return None
    start, end = chunks[0][0], chunks[-1][1]
    by_key = {entry.key: text[a:b] for entry, (a, b) in zip(part.entries, chunks, strict=True)}
    lead = " " * column
    pieces = [_piece(by_key[entry.key], lead) for entry in wanted]
    new = _joined(pieces, lead, behind_dash=start == part.entries[0].start)
    if new is None:
        return None
    if not text[start:end].endswith(("\n", "\r")):
        new = new.rstrip("\r\n")
    moved = next(e for e, w in zip(part.entries, wanted, strict=True) if e is not w)
    return StyleFault(
        line_of(text, moved.start),
        f'key "{moved.key}" stands before keys that come first',
        (Edit(start, end, new),),
    )


def _joined(pieces: list[str], lead: str, *, behind_dash: bool) -> str | None:
    """The lines of a mapping; the first stands behind the dash, where there is one."""
    new = "".join(pieces)
    if behind_dash and (_COMMENT_LINE.match(pieces[0]) or not new.startswith(lead)):
        return None
    return new[len(lead) :] if behind_dash else new


def _piece(chunk: str, lead: str) -> str:
    """An entry's lines, each ended, the first indented."""
    ended = chunk if chunk.endswith(("\n", "\r")) else chunk + "\n"
    first = ended.lstrip("\r\n")
    return ended if first[:1] in (" ", "#") or not lead else lead + ended


def _chunks(text: str, part: Part, column: int) -> list[tuple[int, int]] | None:
    """Start and end of each entry with its comments: whole lines that follow each other."""
    starts = []
    for place, entry in enumerate(part.entries):
        line = line_start(text, entry.start)
        alone = not text[line : entry.start].strip()
        if not alone and place:
            return None
        floor = after_line(text, part.entries[place - 1].part.end) if place else line
        starts.append(_with_comments(text, line, floor, column) if alone else entry.start)
    ends = [*starts[1:], after_line(text, part.entries[-1].part.end)]
    return list(zip(starts, ends, strict=True))


def _with_comments(text: str, line: int, floor: int, column: int) -> int:
    """Where the comments right above a line start that speak of it, not above `floor`."""
    start = line
    while start > floor:
        above = line_start(text, start - 1)
        found = _COMMENT_LINE.match(text, above)
        if above < floor or found is None or found.end() - 1 - above != column:
            break
        start = above
    return start

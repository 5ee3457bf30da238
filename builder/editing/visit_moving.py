"""The visits of a vehicle's text as texts of their own; what was typed is moved as it was typed.

Pure: texts in, texts out. Comments beside and above a reading go with it, and so does its layout.
"""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from typing import Any, NamedTuple

from builder.editing.edits import (
    Edit,
    UneditableError,
    after_line,
    apply_edits,
    line_end_of,
    line_start,
    line_stop,
)
from builder.editing.layout import Entry, Part, entry_at, part_at, read_layout
from builder.editing.spelling import scalar_text
from builder.editing.splicing import out_of_brackets
from builder.editing.tidying import comments_of
from builder.editing.writing import write_record
from builder.findings import DataPath
from builder.model.plugs import FUSE_POSITIONS, PLUGS

_NO_PLACES = "places: []"
_LIST = "readings"
_RECORDINGS = "recordings"
_SESSION_IN = {"sessions": "id", _RECORDINGS: "session"}
"""Which key of an item of a record's own lists says whose it is."""


class MovedVisits(NamedTuple):
    """The text of a vehicle without its visits, and the text of each visit by its id."""

    vehicle: str
    visits: dict[str, str]


class _Place(NamedTuple):
    """A pin or fuse position of a record: where it stands, and how a visit names it."""

    path: DataPath
    keys: tuple[tuple[str, Any], ...]
    readings: list[dict[str, Any]]


def moved_visits(
    text: str, data: Mapping[str, Any], visits: Mapping[str, Collection[str]], schema_ref: str
) -> MovedVisits:
    """Return the texts of a vehicle and its visits.

    Args:
        text: The vehicle's record.
        data: The same as plain data.
        visits: The sessions of each visit, by the id that the visit gets.
        schema_ref: Relative path of the visits' schema for editors.

    Raises:
        UneditableError: something in it cannot be moved as it stands.
    """
    root, places = read_layout(text), list(_places(data))
    made = {
        name: _visit_text(text, root, data, name, sessions, places, schema_ref)
        for name, sessions in visits.items()
    }
    gone = {session for sessions in visits.values() for session in sessions}
    edits = [
        *_without_sessions(text, root, data, gone),
        *_without_recordings(text, root, data, gone),
    ]
    for place in places:
        edits += _without_readings(text, root, place, gone)
    moved = MovedVisits(apply_edits(text, edits), made)
    found = sum(map(comments_of, (moved.vehicle, *made.values())), Counter[str]())
    if comments_of(text) - found:
        raise UneditableError(
            "a comment stands where it would be lost: put it on a line of its own"
        )
    return moved


def _places(data: Mapping[str, Any]) -> Iterator[_Place]:
    for at, plug in enumerate(data[PLUGS]):
        for number, pin in enumerate(plug["pins"]):
            keys = (("plug", plug["id"]), ("cavity", pin["cavity"]))
            yield _Place((PLUGS, at, "pins", number), keys, pin.get(_LIST, []))
    for at, each in enumerate(data.get(FUSE_POSITIONS, ())):
        keys = (("panel", each["panel"]), ("fuse_position", each["position"]))
        yield _Place((FUSE_POSITIONS, at), keys, each.get(_LIST, []))


def _visit_text(
    text: str,
    root: Part,
    data: Mapping[str, Any],
    name: str,
    sessions: Collection[str],
    places: list[_Place],
    schema_ref: str,
) -> str:
    said = [data["sessions"][at] for at in _mine(data, "sessions", sessions)]
    recorded = [data[_RECORDINGS][at] for at in _mine(data, _RECORDINGS, sessions)]
    head = {
        **{"schema": 1, "id": name, "data": data["data"], "vehicle": data["id"]},
        **{"sessions": said, "places": []},
        **({_RECORDINGS: recorded} if recorded else {}),
    }
    lines = write_record(head, "visit", schema_ref).splitlines()
    if recorded:
        begin = lines.index(f"{_RECORDINGS}:")
        lines[begin + 1 :] = _typed(text, root, data, _RECORDINGS, sessions)
    written = list(_typed(text, root, data, "sessions", sessions))
    start = lines.index("sessions:")
    stop = next(at for at, line in enumerate(lines) if at > start and line[:1] not in (" ",))
    body = [line for place in places for line in _place_lines(text, root, place, sessions)]
    lines[start + 1 : stop] = written
    if body:
        at = lines.index(_NO_PLACES)
        lines[at : at + 1] = ["places:", *body]
    return "\n".join(lines) + "\n"


def _mine(data: Mapping[str, Any], key: str, sessions: Collection[str]) -> list[int]:
    """Which items of a list of a record are of these sessions."""
    items = enumerate(data.get(key, ()))
    return [at for at, each in items if each[_SESSION_IN[key]] in sessions]


def _typed(
    text: str, root: Part, data: Mapping[str, Any], key: str, sessions: Collection[str]
) -> Iterator[str]:
    holder = part_at(root, (key,))
    for at in _mine(data, key, sessions):
        yield from _item(text, holder, holder.entries[at], "  ")


def _place_lines(text: str, root: Part, place: _Place, sessions: Collection[str]) -> Iterator[str]:
    mine = [at for at, each in enumerate(place.readings) if each["session"] in sessions]
    if not mine:
        return
    (first, name), (second, inner) = place.keys
    yield f"  - {first}: {scalar_text(name, flow=False)}"
    yield f"    {second}: {scalar_text(inner, flow=False)}"
    yield "    readings:"
    holder = part_at(root, (*place.path, _LIST))
    for at in mine:
        yield from _item(text, holder, holder.entries[at], "      ")


def _item(text: str, holder: Part, entry: Entry, indent: str) -> Iterator[str]:
    """The lines of an item as it was typed, its dash in the column of `indent`."""
    if holder.flow:
        lines = textwrap.dedent(text[entry.part.start : entry.part.end]).splitlines()
        yield f"{indent}- {' '.join(line.strip() for line in lines)}"
        return
    start, stop = _span(text, holder, entry)
    above = text[start : line_start(text, entry.start)]
    column = entry.start - line_start(text, entry.start)
    body = " " * column + text[entry.start : stop]
    for line in textwrap.dedent(above + body).splitlines():
        yield f"{indent}{line.rstrip()}" if line.strip() else ""


def _span(text: str, holder: Part, entry: Entry) -> tuple[int, int]:
    """From the comments right above an item of a block list to the end of its last line."""
    start = line_start(text, entry.start)
    at = holder.entries.index(entry)
    before = holder.entries[at - 1].part.end if at else 0  # up to the list's key, no comment
    while start > before:
        above = line_start(text, start - 1)
        if above < before or not text[above:start].strip().startswith("#"):
            break
        start = above
    return start, after_line(text, entry.part.end)


def _without_sessions(
    text: str, root: Part, data: Mapping[str, Any], gone: Collection[str]
) -> Iterator[Edit]:
    holder = part_at(root, ("sessions",))
    items = _mine(data, "sessions", gone)
    if len(items) == len(holder.entries):
        yield _emptied(text, holder, text.index(":", entry_at(root, ("sessions",)).key_end) + 1)
    else:
        yield from _item_edits(text, holder, items)


def _without_recordings(
    text: str, root: Part, data: Mapping[str, Any], gone: Collection[str]
) -> Iterator[Edit]:
    items = _mine(data, _RECORDINGS, gone)
    if not items:
        return
    holder = part_at(root, (_RECORDINGS,))
    if len(items) == len(holder.entries):
        yield _entry_edit(text, root, entry_at(root, (_RECORDINGS,)))
    else:
        yield from _item_edits(text, holder, items)


def _emptied(text: str, holder: Part, start: int) -> Edit:
    """A list behind the colon before `start` without its items; a comment at its key stays."""
    if holder.flow:
        return Edit(start, holder.end, " []")
    beside = _comment_at(text, start)
    end = f"  {beside}" if beside else ""
    return Edit(start, after_line(text, holder.end), f" []{end}{line_end_of(text)}")


def _comment_at(text: str, place: int) -> str:
    """The comment on the rest of a line; "" where there is none."""
    _, sign, said = text[place : line_stop(text, place)].partition("#")
    return f"{sign} {said.strip()}" if said.strip() else ""


def _without_readings(
    text: str, root: Part, place: _Place, gone: Collection[str]
) -> Iterator[Edit]:
    items = [at for at, each in enumerate(place.readings) if each["session"] in gone]
    if not items:
        return
    holder, pin = part_at(root, (*place.path, _LIST)), part_at(root, place.path)
    if len(items) == len(holder.entries):
        yield _entry_edit(text, pin, entry_at(root, (*place.path, _LIST)))
    else:
        yield from _item_edits(text, holder, items)


def _entry_edit(text: str, pin: Part, entry: Entry) -> Edit:
    """A key with its value taken out; in braces with the comma before it."""
    at = pin.entries.index(entry)
    if at == 0:
        raise UneditableError("what was measured stands before everything else")
    if pin.flow:
        return Edit(pin.entries[at - 1].part.end, entry.part.end, "")
    start, stop = line_start(text, entry.start), after_line(text, entry.part.end)
    after = entry.part.end if entry.part.flow else entry.key_end
    beside = _comment_at(text, after)
    kept = f"{text[start : entry.start]}{beside}{line_end_of(text)}" if beside else ""
    return Edit(start, stop, kept)


def _item_edits(text: str, holder: Part, items: Collection[int]) -> list[Edit]:
    """Items of a list taken out, some of them staying."""
    gone = [holder.entries[at] for at in items]
    if holder.flow:
        return out_of_brackets(holder, gone)
    if any(text[line_start(text, entry.start) : entry.start].strip() for entry in gone):
        raise UneditableError("an item shares its line with another")
    return [Edit(*_span(text, holder, entry), "") for entry in gone]

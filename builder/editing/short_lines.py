"""Entries of a record that are one line of text: a pin of a plug, and a reading.

A line is read as the interview and pasted tables read it: nothing is guessed, and a word that
stands for several things is asked back.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from builder.declaring import fields_of
from builder.editing.drafts.pin_place import place_of
from builder.editing.drafts.pin_text import pin_of, read_pin
from builder.editing.drafts.question import AnswerError, IncompleteError
from builder.editing.drafts.visit_draft import reading_of
from builder.editing.interview.pins import plain_line
from builder.editing.spelling import flow_text
from builder.editing.writing import one_line
from builder.findings import DataPath, Fault, Fix
from builder.model.pin import Pin
from builder.model.plugs import FUSE_POSITIONS, PLUGS
from builder.model.words import SchemaKind
from builder.schema_check.yaml_words import listed

NOT_READ, READ = "SCH116", "SCH117"
_PINS, _READINGS = "pins", "readings"
_HOLDERS: Mapping[SchemaKind, tuple[DataPath, ...]] = {
    "vehicle": ((PLUGS, _PINS), (FUSE_POSITIONS,)),
    "visit": (("places",),),
}
"""The lists whose items have readings, by the kind of record."""
_PIN_KEYS = frozenset(each.key for each in fields_of(Pin))


class Line(NamedTuple):
    """A line in the place of an entry: what it was read as, None where it was not, and the fault
    that tells of it."""

    path: DataPath
    entry: dict[str, Any] | None
    rule_id: str
    fault: Fault


def lines_of(kind: SchemaKind, data: Mapping[str, Any]) -> Iterator[Line]:
    """Return the entries of a record that are one line of text."""
    if kind == "vehicle":
        yield from _pins(data)
    names = [str(each.get("id")) for each in _mappings(data.get("sessions"))]
    for way in _HOLDERS.get(kind, ()):
        for path, holder in _items(data, way, ()):
            for at, text in enumerate(items_of(holder.get(_READINGS))):
                if isinstance(text, str) and text.strip():
                    yield _reading((*path, _READINGS, at), text, names, kind)


def _items(data: Mapping[str, Any], way: DataPath, path: DataPath) -> Iterator[Any]:
    """Each mapping in the list at the end of a way through lists, with its path."""
    for at, one in enumerate(items_of(data.get(str(way[0])))):
        here = (*path, way[0], at)
        if isinstance(one, dict) and way[1:]:
            yield from _items(one, way[1:], here)
        elif isinstance(one, dict):
            yield here, one


def items_of(value: Any) -> Sequence[Any]:
    """What is in a list; nothing where something else was typed."""
    return value if isinstance(value, list) else ()


def _mappings(value: Any) -> Iterator[dict[str, Any]]:
    return (one for one in items_of(value) if isinstance(one, dict))


def _taken(path: DataPath, entry: Mapping[str, Any], said: str, kind: SchemaKind) -> Line:
    """A line that was read, and as what: so that who typed it sees whether it was meant so."""
    fix = Fix("write", path, one_line(entry, kind, path))
    return Line(path, {**entry}, READ, Fault(path, said, "loombook mend writes it out", fix=fix))


def _refused(path: DataPath, text: str, error: AnswerError) -> Line:
    why, help_text = str(error), "or type its entry with the keys"
    if isinstance(error, IncompleteError):
        why, help_text = f'"{text.strip()}" is not complete', "type cavity, function, colour"
    return Line(path, None, NOT_READ, Fault(path, why, help_text))


# ---- pins ---------------------------------------------------------------------------------------
def _pins(data: Mapping[str, Any]) -> Iterator[Line]:
    for path, plug in _items(data, (PLUGS,), ()):
        for at, pin in enumerate(items_of(plug.get("pins"))):
            text = _as_line(pin)
            if text is not None and text.strip():
                yield _pin((*path, "pins", at), text, str(plug.get("id", "")))


def _as_line(pin: Any) -> str | None:
    """The text of a pin that is one line; with a colon behind its cavity, it came as a key."""
    if isinstance(pin, str):
        return pin
    if not isinstance(pin, dict) or len(pin) != 1:
        return None
    ((cavity, rest),) = pin.items()
    named = cavity not in _PIN_KEYS and place_of(f"{cavity}: x", ()) is not None
    return f"{cavity}: {rest}" if named and isinstance(rest, str) else None


def _pin(path: DataPath, text: str, plug: str) -> Line:
    try:
        said = read_pin(text, [plug], {})
        if said.plug != plug:
            raise AnswerError(f'"{text.strip()}" names plug {said.plug}, and stands under {plug}')
        pin = pin_of(said)
        if pin is not None:
            return _taken(path, pin, f'a pin in one line, read as "{plain_line(said)}"', "vehicle")
    except AnswerError as error:
        return _refused(path, text, error)
    message = f'"{text.strip()}" says that a cavity is empty, and pins are wires'
    fix = Fix("list_empty", path, flow_text(said.cavity))
    return Line(
        path, None, NOT_READ, Fault(path, message, f"type {said.cavity} into empty", fix=fix)
    )


# ---- readings -----------------------------------------------------------------------------------
def _reading(path: DataPath, text: str, visits: Sequence[str], kind: SchemaKind) -> Line:
    try:
        visit, rest = _visit_and_rest(text, visits)
        entry = {"session": visit, **reading_of(rest)}
    except AnswerError as error:
        return _refused(path, text, error)
    said = one_line(entry, kind, path)
    return _taken(path, entry, f"a reading in one line, read as {said}", kind)


def _visit_and_rest(text: str, visits: Sequence[str]) -> tuple[str, str]:
    """The visit that a line begins with; with one alone, a line need not name it."""
    first, _, rest = text.strip().partition(" ")
    if first in visits:
        return first, rest
    if len(visits) == 1:
        return visits[0], text
    known = f"there is {listed([*visits], 'and')}" if visits else "there is none yet"
    raise AnswerError(f'"{text.strip()}" names no visit of the record first; {known}')

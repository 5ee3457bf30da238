"""The columns of a pin: the template, the import, the export and the handbook read them.

They are made of what is declared of a pin, a visit, a claim and a reading; by hand are those that
say which row it is, and the two that say something of the whole row.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

from builder.editing.tabular.declared import held_keys
from builder.findings import DataPath
from builder.model.old_note import OldNote
from builder.model.plugs import Claim, Pin, Reading, Session
from builder.schema_check.schemas import schema_at

PIN: DataPath = ("plugs", 0, "pins", 0)
SESSION: DataPath = ("sessions", 0)
CLAIM: DataPath = (*PIN, "claims", 0)
OLD_NOTE: DataPath = (*PIN, "old_notes", 0)
READING: DataPath = (*PIN, "readings", 0)

_OF_ROWS: dict[DataPath, DataPath] = {
    ("plug",): ("plugs", 0, "id"),
    ("cavity",): (*PIN, "cavity"),
    ("battery_v",): (*READING, "battery_v"),
}
"""Where the columns that say which row it is, or something of all of it, are described."""

Group = Literal["where", "pin", "visit", "claim", "old note", "row", "reading"]
ManyGroup = Literal["plug", "visit", "channel", "sound", "part", "passage", "settled"]
"""What a row of the car names one of: `plug A housing`."""


_BASES: dict[Group, DataPath] = {
    "pin": PIN,
    "visit": SESSION,
    "claim": CLAIM,
    "old note": OLD_NOTE,
    "reading": READING,
}


class Column(NamedTuple):
    """A column of the pins: its heading, where its value goes within its group, its other names.

    `help` is given where the schema's own description does not do. Its path names it too.
    """

    heading: str
    group: Group
    key: DataPath
    others: tuple[str, ...] = ()
    help: str = ""

    @property
    def at(self) -> DataPath:
        """Where the schema of a vehicle describes it; () for a column of no single key."""
        base = _BASES.get(self.group)
        return (*base, *self.key) if base else _OF_ROWS.get(self.key, ())

    @property
    def names(self) -> tuple[str, ...]:
        """Everything that a heading of this column may be."""
        front = (self.group,) if self.group in ("claim", "old note", "reading") else ()
        return (self.heading, *self.others, " ".join(map(str, (*front, *self.key))))

    @property
    def meaning(self) -> str:
        """What it means, in a sentence."""
        return self.help or str(schema_at("vehicle", self.at).get("description", ""))

    @property
    def words(self) -> tuple[str, ...]:
        """The words it takes, when they are a closed list."""
        return words_at(self.at)


def held_at(data: Any, path: DataPath) -> Any:
    """What a record, or a part of one, holds at a path; None for nothing."""
    for step in path:
        data = data.get(step) if isinstance(data, dict) else None
    return data


def words_at(at: DataPath) -> tuple[str, ...]:
    """The closed list of words of a place in a vehicle record; () without one."""
    schema = schema_at("vehicle", at) if at else {}
    return tuple(schema.get("enum", ()) if schema.get("type") == "string" else ())


_OWN_WORDS: dict[DataPath, str] = {
    ("function",): "What the wire does; fl+ and the like for a speaker wire; empty for a cavity "
    "without a terminal. Leave it blank in a further row of the same pin.",
    ("leg",): "+ or -, of a speaker wire.",
}
"""What a column of a pin means where a cell takes more than the record."""

_FIRST_COLOUR: DataPath = ("wire", "base")
_COLOURS = Column(
    *("wire colour", "row", ("colours",), ("colour", "wire", "colours")),
    "Base and stripe in one cell, like white/black; instead of the next two columns.",
)


def _where() -> Iterator[Column]:
    yield Column(
        *("plug", "where", ("plug",), ("connector",), "The letter of the plug, as on the car.")
    )
    yield Column(
        *("cavity", "where", ("cavity",)),
        ("pin", "pin no", "pin number", "cavity no", "position", "way"),
        "The number or letter moulded beside the cavity. Every filled row needs both.",
    )


def _pin() -> Iterator[Column]:
    """The keys of a pin; both colours of its wire can stand in one cell before them."""
    for path, heading, others in held_keys(Pin):
        if path in _OF_ROWS:
            continue
        if path == _FIRST_COLOUR:
            yield _COLOURS
        yield Column(heading, "pin", path, others, _OWN_WORDS.get(path, ""))


def _visit() -> Iterator[Column]:
    yield Column(
        *("visit", "visit", ("id",), ("session",)),
        "The name of a visit described on the sheet car; leave it blank and fill the next columns.",
    )
    yield from _declared("visit", Session, "id")


def _row() -> Iterator[Column]:
    yield Column(
        *("battery (V)", "row", ("battery_v",), ("battery", "battery volts", "vbat", "batt v")),
        "The battery's own voltage, for every voltage of the row that has none of its own.",
    )


def _declared(group: Group, cls: type, known: str = "", words: str = "") -> Iterator[Column]:
    """The keys of a class; `known` is the one that the row says otherwise."""
    for path, heading, others in held_keys(cls, (words,)):
        if path != (known,):
            yield Column(heading, group, path, others)


COLUMNS: tuple[Column, ...] = (
    *(*_where(), *_pin(), *_visit()),
    *_declared("claim", Claim, words="claim"),
    *_declared("old note", OldNote, words="old note"),
    *_row(),
    *_declared("reading", Reading, "session", "reading"),
)

"""A record as the rows of a table."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from typing import Any

from builder.editing.tabular.car_fields import FIELDS, GROUPS, NOT_HELD
from builder.editing.tabular.columns import COLUMNS, Group, ManyGroup, held_at
from builder.editing.tabular.headings import PARTNER, WIDE, Wide
from builder.editing.tabular.readings import is_mirrored
from builder.editing.tabular.values import is_sentence
from builder.model.words import PAIRED
from builder.schema_check.schemas import schema_at

Value = str | int | float
_PLAIN_READING = frozenset({"session", "state", "quantity", "value", "load", "against"})


@dataclass(slots=True)
class TableRows:
    """The rows of a record: fields with their values, and of each pin row what is filled.

    `lost` names what the record holds and a table cannot, as dotted keys.
    """

    car: list[tuple[str, Value]] = field(default_factory=list)
    pins: list[dict[str, Value]] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)


def rows_of(record: dict[str, Any]) -> TableRows:
    """Return the rows that stand for a vehicle record."""
    rows = TableRows(lost=list(dict.fromkeys(_lost(record))))
    for entry in FIELDS:
        value = None if entry.group else held_at(record, entry.path)
        if value is not None and not _holds_items(value):
            rows.car.append(
                (entry.label, _text(value, is_sentence(schema_at("vehicle", entry.at))))
            )
    for group, (items, key, _) in GROUPS.items():
        for number, item in enumerate(record.get(items, ()), 1):
            rows.car += _group_rows(group, str(item[key] if key else number), item)
    for plug in record["plugs"]:
        mirrored = {s["id"] for s in record.get("sessions", ()) if is_mirrored(plug, s)}
        for pin in plug.get("pins", ()):
            rows.pins += _pin_rows(plug, pin, mirrored)
    return rows


def _lost(record: dict[str, Any]) -> Iterator[str]:
    for path in NOT_HELD:
        places: list[Any] = [record]
        for step in path:
            places = [
                inner
                for place in places
                for inner in ([place.get(step)] if isinstance(step, str) else place)
                if inner
            ]
        if places:
            yield ".".join(str(step) for step in path if isinstance(step, str))


def _holds_items(value: Any) -> bool:
    """Whether a value is said in rows of its own, such as the protected sounds."""
    return isinstance(value, list) and any(isinstance(item, dict) for item in value)


def _group_rows(group: ManyGroup, name: str, item: dict[str, Any]) -> Iterator[tuple[str, Value]]:
    for entry in FIELDS:
        if entry.group == group and (value := held_at(item, entry.path)) is not None:
            sentences = is_sentence(schema_at("vehicle", entry.at))
            yield f"{group} {name} {entry.label}", _text(value, sentences)


def _text(value: Any, sentences: bool = False) -> Value:
    """A value as it is typed into a cell; items of a list parted by a mark none of them has."""
    if not isinstance(value, list):
        return value  # type: ignore[no-any-return]
    items = [str(item) for item in value]
    if not items:
        return "none"
    if sentences:
        return "\n".join(items)
    mark = next((m for m in (",", ";") if not any(m in item for item in items)), "\n")
    if len(items) == 1:
        return items[0] + (mark if mark != "," else "")
    return "\n".join(items) if mark == "\n" else f"{mark} ".join(items)


def _pin_rows(
    plug: dict[str, Any], pin: dict[str, Any], mirrored: Collection[str]
) -> list[dict[str, Value]]:
    """The rows of a pin; a visit that is `mirrored` has no "other leg", its numbers are others."""
    where: dict[str, Value] = {"plug": plug["id"], "cavity": pin["cavity"]}
    facts = {
        column.heading: _text(value)
        for column in COLUMNS
        if column.group == "pin" and (value := held_at(pin, column.key)) is not None
    }
    rows: list[dict[str, Value]] = [{**where, **facts}]
    _add_readings(rows, where, plug, pin, mirrored)
    for group, key in _LISTS:
        said = [_cells(group, each) for each in pin.get(key, ())]
        rows += [{**where} for _ in said[len(rows) :]]
        for row, cells in zip(rows, said, strict=False):
            row.update(cells)
    return rows


def _add_readings(
    rows: list[dict[str, Value]],
    where: dict[str, Value],
    plug: dict[str, Any],
    pin: dict[str, Any],
    mirrored: Collection[str],
) -> None:
    """Put readings into the row of their visit; one that has no column there gets its own row."""
    by_session: dict[str, dict[str, Value]] = {}
    for reading in pin.get("readings", ()):
        session = reading["session"]
        if session not in by_session:
            rows += [{**where}] if by_session else []
            by_session[session] = rows[-1] if by_session else rows[0]
            by_session[session]["visit"] = session
        wide = _wide(reading, None if session in mirrored else _partner(plug, pin))
        if wide is None or not _put_wide(by_session[session], wide, reading):
            rows.append({**where, **_spelt(reading)})


_LISTS: tuple[tuple[Group, str], ...] = (("claim", "claims"), ("old note", "old_notes"))
"""What a row says once beside readings, and where the record has it."""


def _cells(group: Group, said: dict[str, Any]) -> dict[str, Value]:
    columns = (c for c in COLUMNS if c.group == group and c.key[0] in said)
    return {column.heading: said[str(column.key[0])] for column in columns}


def _partner(plug: dict[str, Any], pin: dict[str, Any]) -> Any:
    """The cavity of the other leg in the same plug, None without one."""
    if pin["function"] not in PAIRED:
        return None
    for other in plug["pins"]:
        same = all(other.get(key) == pin.get(key) for key in ("function", "channel"))
        if same and other.get("leg") != pin.get("leg"):
            return other["cavity"]
    return None


def _wide(reading: dict[str, Any], partner: Any) -> Wide | None:
    """The column of the template that a reading fits into with all that is said of it."""
    against = reading.get("against")
    if against is not None and against == partner:
        against = PARTNER
    wide = Wide(reading["state"], reading.get("load"), reading["quantity"], against)
    besides = {w.beside for w in WIDE if (w.state, w.load) == (wide.state, wide.load)}
    held = set(reading) - _PLAIN_READING <= besides - {"value"}
    volts = reading["quantity"] in ("dc_v", "ac_v") or "battery_v" not in reading
    return wide if wide in WIDE and held and volts else None


def _put_wide(row: dict[str, Value], wide: Wide, reading: dict[str, Any]) -> bool:
    """Fill the columns of a reading; not when one of its state is there that says otherwise."""
    besides = {
        w.heading: reading[w.beside]
        for w in WIDE
        if (w.state, w.load) == (wide.state, wide.load)
        and w.beside in reading
        and w.beside != "value"
    }
    of_state = {w.heading for w in WIDE if (w.state, w.load) == (wide.state, wide.load)}
    filled = of_state & set(row)
    plain = {w.heading for w in WIDE if w.beside == "value"}
    if wide.heading in row or (filled and (besides or filled - plain)):
        return False
    row |= {wide.heading: reading["value"], **besides}
    return True


def _spelt(reading: dict[str, Any]) -> dict[str, Value]:
    """A row of its own for a reading: one column for each key."""
    columns = {c.key[0]: c.heading for c in COLUMNS if c.group == "reading"}
    return {
        "visit": reading["session"],
        **{columns[key]: value for key, value in reading.items() if key in columns},
    }

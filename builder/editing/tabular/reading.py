"""A filled table to the data of a vehicle record."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from builder.editing.drafts.question import AnswerError, read_text, slug
from builder.editing.drafts.vehicle_draft import channels_of_pins
from builder.editing.tabular.car_fields import DEFAULTS, FIELDS
from builder.editing.tabular.car_reading import read_car
from builder.editing.tabular.draft import Draft, place_of
from builder.editing.tabular.faults import CellFault, Place
from builder.editing.tabular.missing import say_missing
from builder.editing.tabular.parts import Parts, parts_of, without_heading
from builder.editing.tabular.pin_rows import PinRow, read_rows
from builder.editing.tabular.readings import add_claim, add_old_note, add_readings, partners_of
from builder.editing.tabular.sessions import sessions_of
from builder.editing.tabular.visible import visible
from builder.findings import DataPath
from builder.spreadsheets import Sheet, address

_LOCATION = ("factory_amplifier", "location")


@dataclass(frozen=True, slots=True)
class Imported:
    """What a table stands for: the record's data, the cell of each value, and the faults."""

    data: dict[str, Any]
    places: dict[DataPath, Place]
    faults: tuple[CellFault, ...]
    first: Place

    def place_of(self, path: DataPath) -> Place:
        """The cell that a path of the record came from; the table's first when none did."""
        return place_of(self.places, path) or self.first


def from_tables(sheets: Sequence[Sheet]) -> Imported:
    """Return the record that a filled table stands for; never raises for what is in a table."""
    draft = Draft()
    sheets = visible(sheets, draft)
    parts = parts_of(sheets, draft)
    first = Place(sheets[0].name if sheets else "", 1, 1)
    read_car(parts.car, draft)
    if parts.pins is None:
        if not any(fault.code == "TAB103" for fault in draft.faults):
            draft.say(first, "TAB103", "has no pins", 'name the sheet with the pins "pins"')
    else:
        _read_pins(parts, draft)
    _finish(draft, _car_place(parts, first))
    say_missing(draft, _car_place(parts, first))
    return Imported(draft.data, draft.places, tuple(_in_order(draft, sheets)), first)


def _in_order(draft: Draft, sheets: Sequence[Sheet]) -> list[CellFault]:
    order = {sheet.name: number for number, sheet in enumerate(sheets)}
    return sorted(draft.faults, key=lambda f: (order.get(f.place.sheet, 0), f.place[1:], f.code))


def _car_place(parts: Parts, first: Place) -> Place:
    if not parts.car:
        return first
    sheet, row = parts.car[0]
    return Place(sheet, row[0].row, 1)


def _read_pins(parts: Parts, draft: Draft) -> None:
    assert parts.pins is not None
    table = parts.pins
    for cell in without_heading(table):
        draft.say(
            *(Place(table.sheet, cell.row, cell.column), "TAB115"),
            f'"{cell.text[:40]}" stands under no heading',
            "write a heading above it, or delete it",
        )
    rows = read_rows(table, draft)
    plugs = _plugs(rows, draft)
    ids = sessions_of(rows, draft)
    draft.partners = partners_of(rows)
    pins: dict[tuple[str, str], DataPath] = {}
    for number, row in enumerate(rows):
        _add_row(row, ids.get(number), plugs, pins, draft)


def _plugs(rows: Sequence[PinRow], draft: Draft) -> dict[str, int]:
    """The index of each plug; one that only rows name is added where it is named first."""
    plugs = draft.data.setdefault("plugs", [])
    known = {str(plug.get("id")): index for index, plug in enumerate(plugs)}
    for row in rows:
        if row.plug not in known:
            known[row.plug] = int(draft.append(("plugs",), {"id": row.plug}, row.place)[1])
    for plug in plugs:
        plug.setdefault("pins", [])
    return known


def _add_row(
    row: PinRow,
    session: str | None,
    plugs: dict[str, int],
    pins: dict[tuple[str, str], DataPath],
    draft: Draft,
) -> None:
    plug: DataPath = ("plugs", plugs[row.plug])
    key = (row.plug, str(row.cavity))
    if row.empty and row.of("pin"):
        draft.say(row.place, "TAB108", "an empty cavity has no wire", "clear the rest of the row")
    elif row.empty and key not in pins:
        pins[key] = draft.append((*plug, "empty"), row.cavity, row.place)
    elif key in pins and (row.empty or row.of("pin")):
        _say_twice(row, pins[key], draft)
    elif key in pins:
        _add_evidence(row, pins[key], session, draft)
    else:
        pins[key] = _add_pin(row, plug, draft)
        _add_evidence(row, pins[key], session, draft)


def _say_twice(row: PinRow, pin: DataPath, draft: Draft) -> None:
    earlier = draft.places[pin]
    where = address(earlier.row, earlier.column, earlier.sheet)
    draft.say(
        *(row.place, "TAB110", f"{row.plug} {row.cavity} is described at {where} already"),
        "correct the cavity of one of them; a row that adds readings leaves function, wire, fuse "
        "and note blank",
    )


def _add_pin(row: PinRow, plug: DataPath, draft: Draft) -> DataPath:
    data = {"cavity": row.cavity, **row.nested("pin")}
    path = draft.append((*plug, "pins"), data, row.place)
    for (group, key), place in row.places.items():
        if group == "pin":
            draft.places[(*path, *key)] = place
    if "function" not in data:
        if not row.doubtful:
            help = "type the function, or unknown when you could not tell"
            draft.say(row.place, "TAB111", f"{row.plug} {row.cavity} has no function", help)
        data["function"] = "unknown"
    return path


def _add_evidence(row: PinRow, pin: DataPath, session: str | None, draft: Draft) -> None:
    if draft.get((*pin, "function")) is None:  # an empty cavity
        if row.wide or row.of("reading"):
            draft.say(row.place, "TAB108", "an empty cavity has no readings", "clear the row")
        return
    add_readings(row, pin, session, draft)
    add_claim(row, pin, draft)
    add_old_note(row, pin, draft)


def _finish(draft: Draft, place: Place) -> None:
    """What the table does not say: the same as `new vehicle` writes when it is not told."""
    read, data = {fault.place for fault in draft.faults}, draft.data
    if draft.get(("features", "hybrid")) == "no":
        data.setdefault("safety", {}).setdefault("high_voltage_zones", [])
    taken = list(_take_defaults(draft, place))
    if taken and place not in read:
        draft.say(place, "TAB112", f"not said, so written: {', '.join(taken)}")
    data.setdefault("schema", 1)
    for key in ("how_to_tell", "sessions", "channels", "plugs"):
        data.setdefault(key, [])
    _finish_plugs(data)
    _finish_sounds(data)
    _finish_channels(draft)
    _finish_id(data)


def _take_defaults(draft: Draft, place: Place) -> Iterator[str]:
    """Write each default that is wanting, and yield what was written."""
    labels = {field.path: field.label for field in FIELDS if not field.group}
    for path, word in DEFAULTS.items():
        if draft.get(path) is None and (path != _LOCATION or _has_amplifier(draft)):
            draft.put(path, read_text("vehicle", path, word), place)
            del draft.places[path]
            yield f"{labels[path]} {word}"


def _has_amplifier(draft: Draft) -> bool:
    return draft.get(("factory_amplifier", "feed")) not in (None, "none", "unknown")


def _finish_plugs(data: dict[str, Any]) -> None:
    for plug in data["plugs"]:
        name = plug.get("id", "")
        defaults = {"name": f"plug {name}", "unit": "radio", "location": "behind the radio"}
        plug |= {key: word for key, word in defaults.items() if key not in plug}
        plug.setdefault("empty", [])
        plug.setdefault("pins", [])


def _finish_sounds(data: dict[str, Any]) -> None:
    for sound in data.get("protected_sounds", ()):
        if isinstance(sound, dict):
            sound.setdefault("plays_key_off", "unknown")


def _finish_channels(draft: Draft) -> None:
    """Every pair that a pin names has an entry; what nobody said of it is unknown."""
    channels = draft.data["channels"]
    known = {channel.get("channel") for channel in channels}
    pins = [pin for plug in draft.data["plugs"] for pin in plug["pins"]]
    channels += [c for c in channels_of_pins(pins) if c["channel"] not in known]
    for channel in channels:
        channel.setdefault("driven_by", "radio")
        channel.setdefault("band", "unknown")


def _finish_id(data: dict[str, Any]) -> None:
    scope = data.get("scope", {})
    words = (data.get("make"), data.get("model"), scope.get("year_from"), data.get("variant"))
    if "id" not in data and all(words):
        try:
            data["id"] = read_text("vehicle", ("id",), slug(" ".join(map(str, words))))
        except AnswerError:
            return

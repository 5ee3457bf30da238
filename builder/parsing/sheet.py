"""A bay sheet from its data."""

from __future__ import annotations

from builder.findings import DataPath
from builder.model.sheet import Sheet, SheetNote, SheetReading, SheetResult, SheetTick
from builder.parsing.values import Data, text_or_none, without

_PLACE = ("plug", "cavity", "pair", "fuse_position")


def parse_sheet(data: Data) -> Sheet:
    """Return the sheet that schema-valid data states."""
    return Sheet(
        vehicle=data["vehicle"],
        job=data.get("job"),
        converter=data.get("converter"),
        record=data.get("record"),
        session=dict(data["session"]),
        readings=tuple(
            _reading(item, ("readings", at)) for at, item in enumerate(data.get("readings", ()))
        ),
        results=tuple(
            _result(item, ("results", at)) for at, item in enumerate(data.get("results", ()))
        ),
        notes=tuple(
            SheetNote(dict(item), ("notes", at)) for at, item in enumerate(data.get("notes", ()))
        ),
        old_notes=tuple(
            _reading(item, ("old_notes", at)) for at, item in enumerate(data.get("old_notes", ()))
        ),
        ticked=tuple(
            SheetTick(dict(item), ("ticked", at)) for at, item in enumerate(data.get("ticked", ()))
        ),
    )


def _reading(data: Data, path: DataPath) -> SheetReading:
    return SheetReading(
        plug=data.get("plug"),
        cavity=text_or_none(data, "cavity"),
        pair=data.get("pair"),
        fuse_position=text_or_none(data, "fuse_position"),
        facts={key: value for key, value in data.items() if key not in _PLACE},
        path=path,
    )


def _result(data: Data, path: DataPath) -> SheetResult:
    return SheetResult(data["test"], without(data, "test"), path)

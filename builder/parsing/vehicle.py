"""A vehicle record; what its readings leave to their session is filled in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from builder.declaring import read
from builder.findings import DataPath
from builder.model.plugs import FUSE_POSITIONS, PLUGS, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import BATTERY_NEGATIVE

Data = Mapping[str, Any]


def parse_vehicle(data: Data) -> Vehicle:
    """Return the typed vehicle for schema-valid data."""
    references = {session["id"]: session["against"] for session in data["sessions"]}
    plugs = [
        {**plug, "pins": [_referred(pin, references) for pin in plug["pins"]]}
        for plug in data[PLUGS]
    ]
    positions = [_referred(one, references) for one in data.get(FUSE_POSITIONS, ())]
    return read(Vehicle, {**data, PLUGS: plugs, FUSE_POSITIONS: positions})


def parse_readings(rows: Sequence[Data], path: DataPath) -> tuple[Reading, ...]:
    """Return readings that belong to no session, whose list stands at `path`."""
    said = _referred({"readings": [{"session": "", **row} for row in rows]}, {})
    return tuple(read(Reading, row, (*path, at)) for at, row in enumerate(said["readings"]))


def _referred(holder: Data, references: Mapping[str, str]) -> Data:
    """A pin or fuse position each of whose readings says against what it was taken.

    One that names no reference point was taken against what its session was.
    """
    rows = [
        {"against": references.get(row["session"], BATTERY_NEGATIVE), **row}
        for row in holder.get("readings", ())
    ]
    return {**holder, "readings": rows} if rows else holder

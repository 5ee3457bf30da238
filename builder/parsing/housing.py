"""A housing record."""

from __future__ import annotations

from builder.model.housing import Housing
from builder.parsing.values import Data, name, text_or_none, texts

_GAP = "_"


def parse_housing(data: Data) -> Housing:
    """Return the typed housing."""
    rows = tuple(
        tuple(None if cell == _GAP else name(cell) for cell in row) for row in data["rows"]
    )
    sizes = {
        name(cavity): entry["blade_mm"]
        for entry in data.get("sizes", ())
        for cavity in entry["cavities"]
    }
    return Housing(
        id=data["id"],
        data=data["data"],
        name=data["name"],
        seen_from=data["seen_from"],
        latch=data["latch"],
        rows=rows,
        row_shift=tuple(data.get("row_shift", ())) or (0.0,) * len(rows),
        blade_mm=data["blade_mm"],
        sizes=sizes,
        blocked=texts(data, "blocked"),
        keyed_corner=data.get("keyed_corner"),
        mates_with=texts(data, "mates_with"),
        note=text_or_none(data, "note"),
    )

"""A record as it grows out of cells: its data, and the cell that each value came from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from builder.editing.tabular.faults import CellError, CellFault, Place
from builder.findings import DataPath


@dataclass(slots=True)
class Draft:
    """Record data, the place of each value in the table, and the faults found so far."""

    data: dict[str, Any] = field(default_factory=dict)
    places: dict[DataPath, Place] = field(default_factory=dict)
    faults: list[CellFault] = field(default_factory=list)
    partners: dict[tuple[str, str], Any] = field(default_factory=dict)
    """Of each leg, as (plug, cavity), the cavity of the other leg of its pair."""
    refused_fields: dict[str, bool] = field(default_factory=dict)
    """Fields whose cell could not be taken: that is said already."""

    def put(self, path: DataPath, value: Any, place: Place) -> None:
        """Set a value; mappings on the way are made, list items must be there."""
        at: Any = self.data
        for step in path[:-1]:
            at = at[step] if isinstance(step, int) else at.setdefault(step, {})
        at[path[-1]] = value
        self.places[path] = place

    def append(self, path: DataPath, item: Any, place: Place) -> DataPath:
        """Add an item to the list at a path, which is made when missing; its path."""
        at: Any = self.data
        for step in path[:-1]:
            at = at[step]
        items = at.setdefault(path[-1], [])
        items.append(item)
        self.places[(*path, len(items) - 1)] = place
        return (*path, len(items) - 1)

    def get(self, path: DataPath) -> Any:
        """The value at a path, None when there is none."""
        at: Any = self.data
        for step in path:
            try:
                at = at[step]
            except (KeyError, IndexError, TypeError):
                return None
        return at

    def say(self, place: Place, code: str, message: str, help: str = "") -> None:
        """Add a fault."""
        self.faults.append(CellFault(place, code, message, help))

    def attempt(self, place: Place, read: Callable[[], Any]) -> Any:
        """What `read` returns; None, and a fault at the place, when the cell cannot be taken."""
        try:
            return read()
        except CellError as error:
            self.faults.append(error.at(place))
            return None


def place_of(places: dict[DataPath, Place], path: DataPath) -> Place | None:
    """The cell of a path, of what holds it when it has none of its own, or of its first part."""
    for length in range(len(path), 0, -1):
        if path[:length] in places:
            return places[path[:length]]
    inside = [found for found in places if path and found[: len(path)] == path]
    return places[inside[0]] if inside else None

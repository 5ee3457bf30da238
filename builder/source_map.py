"""Where each key and value of a record stands in its file.

The loader builds one `Node` for each YAML node while it builds the plain data; looking a
data path up walks the same keys and indices. Nothing is stored twice and no path tuple is
made for the thousands of nodes nobody asks about.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from builder.findings import DataPath


class Position(NamedTuple):
    """A place in a text file, both numbers 1-based."""

    line: int
    column: int


@dataclass(slots=True)
class Node:
    """The position of one YAML node and of what it holds.

    `keys` gives where each key of a mapping stands; `children` the node of each value,
    by key for a mapping and by index for a sequence.
    """

    position: Position
    keys: dict[str | int, Position] = field(default_factory=dict)
    children: dict[str | int, Node] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SourceMap:
    """Positions of one loaded file."""

    root: Node

    def value_position(self, path: DataPath) -> Position:
        """Where the value at `path` starts; the nearest ancestor's place if it is not there."""
        node = self.root
        for step in path:
            child = node.children.get(step)
            if child is None:
                return node.position
            node = child
        return node.position

    def key_position(self, path: DataPath) -> Position:
        """Where the key that names `path` stands; the value's place for a list item."""
        if not path:
            return self.root.position
        parent = self.root
        for step in path[:-1]:
            child = parent.children.get(step)
            if child is None:
                return self.value_position(path)
            parent = child
        return parent.keys.get(path[-1]) or self.value_position(path)

"""A netlist read back: its terminals, its pieces, and which terminals they join.

Written without the code that writes netlists; it knows two comments, `terminal "A.7" is n3` and
`Rw3 is wire "cable 1 ..."`, and the lines of parts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

Ends = tuple[str, str]

_TERMINAL = re.compile(r'^\* terminal "(.*)" is (\S+)$')
_KINDS = "wire|fuse|resistor|capacitor|diode|coil|relay|charger|low-pass|high-pass"
_PIECE = re.compile(rf'^\* (\S+) is ({_KINDS}) "(.*)"$')
_PART = re.compile(r"^([A-Za-z]\S*) (\S+) (\S+) (.+)$")


@dataclass(frozen=True)
class Part:
    """A line of the netlist: two nodes and what stands behind them."""

    name: str
    nodes: Ends
    value: str


@dataclass(frozen=True)
class Piece:
    """A wire or a part that has a name on the sheets."""

    kind: str
    part: Part

    @property
    def nodes(self) -> Ends:
        return self.part.nodes


@dataclass(frozen=True)
class Deck:
    """Nodes of terminals, pieces by their names on the sheets, and the models of units."""

    terminals: dict[str, str]
    pieces: dict[str, Piece]
    models: tuple[Part, ...]

    def model(self, letter: str, one: str, other: str) -> Part:
        """The model of that letter between two nodes."""
        wanted = (one, other)
        (found,) = [p for p in self.models if p.name[0] == letter and p.nodes == wanted]
        return found


def read_deck(text: str) -> Deck:
    """Read everything before the run."""
    lines = text.split("\n.control", maxsplit=1)[0].splitlines()[1:]
    terminals, called = {}, {}
    for line in lines:
        if found := _TERMINAL.match(line):
            terminals[found[1]] = found[2]
        elif found := _PIECE.match(line):
            called[found[1]] = (found[2], found[3])
    parts = list(_parts(lines))
    assert len({part.name for part in parts}) == len(parts), "a name stands twice"
    pieces = {
        called[part.name][1]: Piece(called[part.name][0], part)
        for part in parts
        if part.name in called
    }
    assert len(pieces) == len(called), "a piece has no line, or two have one name"
    return Deck(terminals, pieces, tuple(part for part in parts if part.name not in called))


def _parts(lines: Iterable[str]) -> Iterator[Part]:
    inside = False
    for line in lines:
        inside = (inside or line.startswith(".subckt")) and not line.startswith(".ends")
        if inside or line.startswith(("*", ".")):
            continue
        found = _PART.match(line)
        assert found, f"no part: {line}"
        yield Part(found[1], (found[2], found[3]), found[4])


def touching(terminals: Mapping[str, str], pieces: Mapping[str, Ends]) -> set[frozenset[str]]:
    """What is one node: terminals by their names, leads of pieces as "NAME, lead 1"."""
    at: dict[str, set[str]] = {}
    for terminal, node in terminals.items():
        at.setdefault(node, set()).add(terminal)
    for name, nodes in pieces.items():
        for lead, node in enumerate(nodes, 1):
            at.setdefault(node, set()).add(f"{name}, lead {lead}")
    return {frozenset(found) for found in at.values()}

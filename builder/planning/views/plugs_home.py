"""Plugs of a loom that go home: one act for all cavities of a plug."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Joint


def plugs_home(joints: Iterable[Joint]) -> dict[str, list[Joint]]:
    """Return the joints at which plugs go home, plug by plug."""
    found: dict[str, list[Joint]] = {}
    for joint in joints:
        if joint.kind == "plug_home":
            found.setdefault(joint.place, []).append(joint)
    return found


def home_words(index: CircuitIndex, joints: Sequence[Joint]) -> str:
    """Return what goes into what: "car end of loom A and plug A, 16 cavities"."""
    ends = [end for joint in joints for end in joint.joins]
    loom = next(end for end in ends if index.unit_of(end).kind == "loom")
    other = next(end for end in ends if index.unit_of(end).kind != "loom")
    name = index.terminals[loom].name.rpartition(".")[0]
    count = len(joints)
    into = index.unit_of(other).id
    return f"{name} of {index.unit_of(loom).id} and {into}, {count} {_cavities(count)}"


def _cavities(count: int) -> str:
    return "cavity" if count == 1 else "cavities"

"""Jobs whose wiring is drawn: those of the book, with their housings."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

from drawing_samples import BOOK
from pack_jobs import SHIPPED, shipped_pack, shipped_parts

from builder.loading import load_file
from builder.parsing import parse_record
from builder.planning.circuit.model import Circuit
from builder.planning.work_pack import JobParts

DRAWN_JOBS = tuple(name for name in SHIPPED if shipped_pack(name).circuit is not None)


@cache
def housings() -> dict[str, Any]:
    found = {}
    for path in sorted((BOOK / "housings").glob("*.yaml")):
        if path.stem != "TEMPLATE":
            found[path.stem] = parse_record("housing", load_file(path, path.name).data or {})
    return found


def with_housings(parts: JobParts) -> JobParts:
    return replace(parts, shelf=replace(parts.shelf, housings=housings()))


def drawn_job(name: str) -> tuple[Circuit, JobParts]:
    circuit = shipped_pack(name).circuit
    assert circuit is not None
    return circuit, with_housings(shipped_parts(name))


def every_id(circuit: Circuit) -> set[str]:
    """Every unit, terminal, wire, part and joint of a circuit."""
    pieces = (*circuit.units, *circuit.terminals, *circuit.wires, *circuit.elements,
              *circuit.joints)  # fmt: skip
    return {piece.id for piece in pieces}

"""The kinds of record whose keys are declared, by the name of their schema."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.contributor import Contributor
from builder.model.housing import Housing
from builder.model.job import Job
from builder.model.parts import Amplifier, Cable, Converter, Interface, Loom
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit
from builder.model.words import RecordKind

PARTS: Mapping[RecordKind, type] = {
    "converter": Converter,
    "amplifier": Amplifier,
    "cable": Cable,
    "loom": Loom,
    "interface": Interface,
    "housing": Housing,
    "contributor": Contributor,
}
"""Those that have a page of facts."""

PART_KINDS: tuple[RecordKind, ...] = tuple(kind for kind in PARTS if kind != "contributor")
"""What lies on a shop's shelf."""

DECLARED: Mapping[RecordKind, type] = {
    "vehicle": Vehicle,
    **PARTS,
    "job": Job,
    "visit": Visit,
}

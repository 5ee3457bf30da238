"""A job with a stand-in for every part whose record is gone: enough to tell what is joined, and to
undo it, and nothing that a figure is worked out from.

What is in a car stays in it when a part's record goes. The as-built part says where hands join and
how it is undone; of a part it needs the name alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple, TypeVar

from builder.model.book import Shelf
from builder.model.job import AsBuilt, Job
from builder.model.parts import Amplifier, Cable, Converter
from builder.model.vehicle import Vehicle
from builder.model.words import RecordKind
from builder.parsing import parse_record
from builder.planning.work_pack import JobParts

Part = TypeVar("Part")
_UNKNOWN: dict[RecordKind, dict[str, Any]] = {
    "converter": {
        "maker": "unknown", "kind": "active", "inputs": 1, "outputs": 1, "sum": "none",
        "input": {"type": "floating", "max_v_rms": "unknown", "impedance_ohm": "unknown"},
        "gain": {"kind": "fixed", "max": 1}, "bass_rolloff_correction": "none",
        "output": {"max_v_rms": "unknown", "at_supply_v": "unknown", "impedance_ohm": "unknown"},
        "input_load_ohm": "none", "delay_adjust": "no",
    },
    "amplifier": {
        "maker": "unknown", "class": "ab", "channels": [], "input_type": "unknown",
        "supply": {"min_v": "unknown", "idle_a": "unknown", "max_a": "unknown",
        "fuse_a": "unknown"}, "turn_on": {"draw_ma": "unknown", "threshold_v": "unknown"},
        "speaker_level_in": "unknown", "output_floating": "unknown",
    },
    "cable": {
        "use": "multi_conductor", "material": "unknown", "jacket": "none", "shield": "no",
    },
}  # fmt: skip
"""What a record of each kind has to say, with nothing in it."""


class Named(NamedTuple):
    """A job with stand-ins, and the records that are not there: kind and id."""

    parts: JobParts
    missing: tuple[tuple[RecordKind, str], ...]


def parts_as_named(job: Job, shelf: Shelf, vehicle: Vehicle) -> Named:
    """Return the job with every record that the book has, and a stand-in for any other.

    A loom that is not there is left out: the as-built part names it.
    """
    missing: list[tuple[RecordKind, str]] = []
    as_built = job.begun.as_built if job.begun else None

    def found(kind: RecordKind, there: Mapping[str, Part], id: str) -> Part:
        if id not in there:
            missing.append((kind, id))
        stand_in: Any = there.get(id) or parse_record(kind, _data(kind, id, as_built))
        return stand_in  # type: ignore[no-any-return]

    converter: Converter = found("converter", shelf.converters, job.converter)
    amplifiers: dict[str, Amplifier] = {
        each.name: found("amplifier", shelf.amplifiers, each.part) for each in job.amplifiers
    }
    cables: list[Cable] = [found("cable", shelf.cables, name) for name in job.cables]
    looms = (loom.record for loom in job.looms if loom.record not in shelf.looms)
    missing += [("loom", name) for name in looms]
    parts = JobParts(job, vehicle, converter, amplifiers, tuple(cables), shelf)
    return Named(parts, tuple(dict.fromkeys(missing)))


def _data(kind: RecordKind, id: str, as_built: AsBuilt | None) -> dict[str, Any]:
    name = _name(id, as_built) if kind == "converter" else id
    return {"schema": 1, "id": id, "data": "invented", "name": name, **_UNKNOWN[kind]}


def _name(id: str, as_built: AsBuilt | None) -> str:
    """What the joints call a converter: its id with the capitals and blanks of its name."""
    spelled = re.compile("[ -]".join(map(re.escape, id.split("-"))), re.IGNORECASE)
    return next((at[0] for at in map(spelled.search, _words(as_built)) if at), id)


def _words(as_built: AsBuilt | None) -> Iterator[str]:
    yield from (joint.meets for joint in as_built.joints) if as_built else ()

"""Two records agree once one of them is mirrored.

What it catches
---------------
Two records of one make and model whose pins of the same plug and housing do not agree as they
stand, but in at least eight of ten when one is seen from the other face or upside down, and three
of ten more than as they stand; at least four pins must be comparable. The record that does not
know its face is the one named; of two that know theirs, the later.

Why it matters in the bay
-------------------------
That is no conflict between two people: one of them counted on the wrong face. Every pin of
that record sends the reader to the wrong cavity.

Example
-------
Fails::

    # one record of the model; housing rows: [1, 2, 3, 4], [5, 6, 7, 8]
    pins: [{cavity: 1, function: constant}, {cavity: 2, function: accessory},
           {cavity: 5, function: ground}, {cavity: 6, function: illumination}]
    ---
    # the other record, read from the other face
    pins: [{cavity: 4, function: constant}, {cavity: 3, function: accessory},
           {cavity: 8, function: ground}, {cavity: 7, function: illumination}]

Passes::

    # one record of the model; housing rows: [1, 2, 3, 4], [5, 6, 7, 8]
    pins: [{cavity: 1, function: constant}, {cavity: 2, function: accessory},
           {cavity: 5, function: ground}, {cavity: 6, function: illumination}]
    ---
    # the other record
    pins: [{cavity: 1, function: constant}, {cavity: 2, function: accessory},
           {cavity: 5, function: ground}, {cavity: 6, function: illumination}]

How to mend it
--------------
Take the plug in hand, find two wires by colour, and re-file the record that was counted on
the other face.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from builder.findings import DataPath, Fault, Severity
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.summary import VehicleSummary
from builder.proof.faces.face_text import both_faces
from builder.proof.faces.poses import MIX_UP_WORDS, Meaning, compare_poses, meanings
from builder.rules.rule import Scope, rule
from builder.rules.sister_records import PlugKey, by_model, by_plug


class _Plug(NamedTuple):
    vehicle: str
    meanings: dict[str, Meaning]
    path: DataPath
    face_known: bool
    alike: tuple[str, ...] = ()  # every vehicle whose record says the same of it


def check(summaries: Sequence[VehicleSummary], shelf: Shelf) -> Iterator[tuple[str, Fault]]:
    """Yield one of two records that were read from different faces: the one to doubt."""
    for group in by_model(summaries):
        for (name, housing_id), plugs in _plugs(group).items():
            housing = shelf.housings.get(housing_id)
            if housing is not None:
                for first, second in combinations(plugs, 2):
                    yield from _compare(first, second, name, housing)


def _plugs(group: list[VehicleSummary]) -> dict[PlugKey, list[_Plug]]:
    """Each plug with the records that describe it; records that say the same only once."""
    found: defaultdict[PlugKey, dict[frozenset[tuple[str, Meaning]], list[_Plug]]]
    found = defaultdict(dict)
    for summary in group:
        for key, pins in by_plug(summary).items():
            said = meanings(pins)
            plug = _Plug(summary.id, said, pins[0].path[:2], pins[0].read_from != "unknown")
            found[key].setdefault(frozenset(said.items()), []).append(plug)
    return {key: [_one_of(alike) for alike in said.values()] for key, said in found.items()}


def _one_of(alike: list[_Plug]) -> _Plug:
    """The first of records that say the same, one of known face before one of unknown face."""
    chosen = next((plug for plug in alike if plug.face_known), alike[0])
    return chosen._replace(alike=tuple(plug.vehicle for plug in alike))


def _compare(
    first: _Plug, second: _Plug, name: str, housing: Housing
) -> Iterator[tuple[str, Fault]]:
    poses = compare_poses(housing, first.meanings, second.meanings)
    doubted, other = (second, first) if first.face_known else (first, second)
    if poses.verdict == "view mix-up":
        known = "" if doubted.face_known else "; its own face is not known"
        yield (
            doubted.vehicle,
            Fault(
                (*doubted.path, "read_from"),
                f'plug "{name}" against "{other.vehicle}": {poses.sentence} ({MIX_UP_WORDS}): '
                f"one of the two was counted on the wrong face{known}",
                "find two wires by colour in the plug, and re-file the record that is mirrored",
                drawing=both_faces(housing),
                also=tuple(v for v in (*other.alike, *doubted.alike) if v != doubted.vehicle),
            ),
        )


RULE = rule("PIN116", Severity.STOP, Scope.BOOK, check)

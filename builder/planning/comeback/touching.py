"""Shorts between two wires: each leg of a pair to every other, and each to the supplies.

A car can come back with one too, crushed under a seat. It then shows as both pairs silent or as a
fuse out, which the faults of one wire already lead to; here each is put in for the bay sheet, which
has to find it before power does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from builder.planning.circuit.model import CircuitWire, EndId, Joint, Link
from builder.planning.circuit.nets import continuity
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.handed_over import HandedOver
from builder.planning.views.names import wire_words
from builder.planning.words import LinkClass

TOUCH = "where two wires touch"
"""The joint that two wires make where both are rubbed through."""
_PAIRS: tuple[LinkClass, ...] = ("speaker_level", "amplified")


def touching(job: HandedOver) -> Iterator[Fault]:
    """Yield each leg of a pair on each other leg, then each on each supply lead."""
    legs = list(_wires(job, *_PAIRS))
    supplies = list(_wires(job, "supply"))
    nets = continuity(job.circuit)
    beside = [*combinations(legs, 2), *((leg, each) for leg in legs for each in supplies)]
    for (one, mine), (other, theirs) in beside:
        if not nets.together(mine.ends[0], theirs.ends[0]):
            yield _touch(job, one, mine, other, theirs)


def _wires(job: HandedOver, *carries: LinkClass) -> Iterator[tuple[Link, CircuitWire]]:
    """One wire of the job in each net of each link, with its link."""
    nets = continuity(job.circuit, parts=lambda part: False)
    seen: set[EndId] = set()
    for link in job.circuit.links:
        for wire in job.index.wires_of(link) if link.carries in carries else ():
            net = nets.of(wire.ends[0])
            if not wire.stays and not wire.loom and net not in seen:
                seen.add(net)
                yield link, wire


def _touch(
    job: HandedOver, one: Link, mine: CircuitWire, other: Link, theirs: CircuitWire
) -> Fault:
    ends = mine.ends[0], theirs.ends[0]
    touch = Joint(TOUCH, "splice", mine.from_place, ends, "", "with_part")
    said = f"{wire_words(mine)} ({one.purpose}) on {wire_words(theirs)} ({other.purpose})"
    return Fault(
        f"touching {mine.id} and {theirs.id}", "touching", mine.id,
        f"rubbed through to each other: {said}",
        f"part them and sleeve both: {mine.id} and {theirs.id}",
        mine.from_place, job.house.comeback_short,
        replace(job.circuit, joints=(*job.circuit.joints, touch)), touching=ends,
    )  # fmt: skip

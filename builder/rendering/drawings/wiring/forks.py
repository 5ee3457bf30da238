"""Y-leads read for the picture: what hangs on each, as a tree from the output to the inputs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from builder.rendering.drawings.wiring.reading import Reading, Strand
from builder.rendering.drawings.wiring.right_side import LineInput


@dataclass(frozen=True, slots=True)
class Exit:
    """One socket of a Y-lead with the joint in it, and what is plugged in there."""

    ids: tuple[str, ...]
    to: Branch


@dataclass(frozen=True, slots=True)
class Fork:
    """One Y-lead: the unit, its plug and what it joins inside, and its sockets that are drawn."""

    ids: tuple[str, ...]
    exits: tuple[Exit, ...]

    @property
    def unit(self) -> str:
        """The Y-lead."""
        return self.ids[0]


Branch: TypeAlias = Fork | LineInput


def branch_of(reading: Reading, leads: list[LineInput]) -> Branch:
    """Return what hangs on an output that feeds some leads."""
    return _branch(reading, leads, 2)


def _branch(reading: Reading, leads: list[LineInput], at: int) -> Branch:
    """What begins at a place of the ways: a lead itself, or a Y-lead's plug."""
    way = leads[0].strands[0].way
    if way[at] in reading.index.wires:
        return leads[0]
    sockets = dict.fromkeys(lead.strands[0].way[at + 2] for lead in leads)
    behind = [[lead for lead in leads if lead.strands[0].way[at + 2] == each] for each in sockets]
    return Fork(
        (reading.index.unit_of(way[at]).id, *_both(leads[0], at), *_both(leads[0], at + 1)),
        tuple(
            Exit((*_both(each[0], at + 2), *_both(each[0], at + 3)), _branch(reading, each, at + 4))
            for each in behind
        ),
    )


def _both(lead: LineInput, at: int) -> tuple[str, ...]:
    """A place of the ways of centre and shield."""
    return tuple(strand.way[at] for strand in lead.strands)


def leads_on(branch: Branch) -> Iterator[LineInput]:
    """Yield the leads that hang on a branch."""
    if isinstance(branch, LineInput):
        yield branch
        return
    for each in branch.exits:
        yield from leads_on(each.to)


def forks_in(branch: Branch) -> Iterator[Fork]:
    """Yield the Y-leads of a branch, the nearest to the output first."""
    if isinstance(branch, Fork):
        yield branch
        for each in branch.exits:
            yield from forks_in(each.to)


def near_ids(strands: tuple[Strand, ...]) -> tuple[str, ...]:
    """Return the output that a lead hangs on, and the joint in it."""
    return tuple(each for strand in strands for each in strand.way[:2])

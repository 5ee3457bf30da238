"""Two pairs that were recorded together: what each is to the other, and what that tells."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from builder.sound.arrays import Samples
from builder.sound.bands import FALLEN_DB, shape_of
from builder.sound.between import Between, between
from builder.sound.crossing import crossing_of
from builder.sound.crossovers import FALLEN_DB as PART_FALLS_DB
from builder.sound.crossovers import Crossover, crossovers_of, phase_of
from builder.sound.delay import Relation, refused_relation, relation_of
from builder.sound.group_delay import group_delay_of
from builder.sound.response import Response
from builder.sound.results import Measured, Refused, Result
from builder.sound.summing import InStep, Lost, in_step, lost_in_sum
from builder.units import Hertz

Standing = Literal["alike", "part of the first", "above the first", "apart"]
Span = tuple[Hertz, Hertz]
_ALIKE = 1.3
_LEVEL_OCTAVES, _LEVEL_DB = 0.5, 1.0
"""A ratio that changes by no more over so much is level: two halves change by 3 dB and more. Chosen
by this project."""


@dataclass(frozen=True, slots=True)
class PairsFacts:
    """What two channels say of each other: `first` and `second` are their numbers, from 1.

    `standing` says what the second plays against the first. The relation is that of the second to
    the first, but of a pair above another that of the higher to the lower. `crossovers` are those
    of the pair that plays less; `equal_hz` is where a low and a high pair are equally loud.
    `sum_db` is what would be lost if the two were joined, by sixth of an octave, both leads being
    alike; `in_step` the same once the delay between them is made good. `group_delay_ms` is how much
    later the second comes, by sixth of an octave.
    """

    first: int
    second: int
    standing: Standing
    relation: Relation
    crossovers: tuple[Crossover, ...]
    equal_hz: Result
    sum_db: Lost
    in_step: InStep | Refused
    group_delay_ms: tuple[tuple[Hertz, Result], ...]


def facts_between(numbers: tuple[int, int], one: Response, other: Response) -> PairsFacts:
    """Return what two pairs of one recording say of each other.

    Args:
        numbers: Of the two channels, from 1.
        one: Response of the first.
        other: Response of the second.
    """
    ends = _ends(one), _ends(other)
    if ends[0][0] > ends[1][0] * _ALIKE and ends[0][1] > ends[1][1] * _ALIKE:
        return facts_between(numbers[::-1], other, one)
    if _is_within(ends[0], ends[1]) and not _is_within(ends[1], ends[0]):
        return facts_between(numbers[::-1], other, one)
    pairs = between(one, other)
    if pairs is not None and not _is_within(ends[1], ends[0]) and _plays_part(-pairs.db, pairs.hz):
        return _facts(numbers[::-1], ends[::-1], other, one)
    return _facts(numbers, ends, one, other)


def _facts(
    numbers: tuple[int, int], ends: tuple[Span, Span], one: Response, other: Response
) -> PairsFacts:
    """The same, the second playing what the first plays, a part of that, or what is above it."""
    pairs = between(one, other)
    standing, relation, halves, equal_hz = _told(ends, one, other, pairs)
    return PairsFacts(
        *numbers, standing, relation, halves, equal_hz,
        lost_in_sum(one, other), in_step(one, other, relation.late_ms), group_delay_of(pairs),
    )  # fmt: skip


def without_polarity(facts: PairsFacts, reason: str) -> PairsFacts:
    """Return the same facts less those that the polarity of the leads has a say in."""
    why = Refused(reason)
    return replace(
        facts,
        relation=replace(facts.relation, inverted=why),
        sum_db=tuple((hz, why) for hz, _ in facts.sum_db),
        in_step=why,
    )


def _told(
    ends: tuple[Span, Span], one: Response, other: Response, pairs: Between | None
) -> tuple[Standing, Relation, tuple[Crossover, ...], Result]:
    """What the second plays against the first, its relation, its crossovers, where both meet."""
    none = Refused("the two pairs are no two halves of a crossover")
    if pairs is None:
        relation = refused_relation("the two pairs play nothing in common that is heard")
        return "apart", relation, (), none
    if _is_within(ends[1], ends[0]) or _plays_part(pairs.db, pairs.hz):
        found = crossovers_of(pairs)
        relation = relation_of(pairs, phase_of(found, pairs.hz) if found else None)
        return "part of the first" if found else "alike", relation, found, none
    crossing = crossing_of(one, other, pairs)
    return "above the first", crossing.relation, (crossing.crossover,), crossing.equal_hz


def _plays_part(db: Samples, hz: Samples) -> bool:
    """Whether one pair plays a part of what another plays, by how much louder it is.

    Two halves of a crossover stand in a ratio that grows all the way; of a whole and a part of it
    the ratio is level at one end, and falls at the other. An equaliser drops out of it, while it
    may let a woofer seem to reach lower than a pair that plays all.
    """
    octaves = np.log2(hz / hz[0])
    low, high = octaves <= _LEVEL_OCTAVES, octaves >= octaves[-1] - _LEVEL_OCTAVES
    return any(
        np.ptp(db[level]) < _LEVEL_DB and np.mean(db[level]) - np.mean(db[far]) > PART_FALLS_DB
        for level, far in ((low, high), (high, low))
    )


def _ends(response: Response) -> Span:
    """Between which frequencies a pair is heard within 12 dB of its level."""
    heard = [
        hz
        for hz, level in shape_of(response)
        if isinstance(level, Measured) and level.value > FALLEN_DB
    ]
    return (heard[0], heard[-1]) if heard else (0.0, 0.0)


def _is_within(inner: Span, outer: Span) -> bool:
    return inner[0] * _ALIKE >= outer[0] and inner[1] <= outer[1] * _ALIKE

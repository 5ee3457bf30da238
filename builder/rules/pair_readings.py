"""Readings of pairs: what both legs rest at."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.model.legs import is_other_leg
from builder.model.plugs import Reading
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES
from builder.proof.contradictions.pair_clashes import taken_together
from builder.proof.pin_readings import ground_volts, value_of
from builder.rules.memory import LastAnswer
from builder.rules.wiring import Pair, Site, Wiring, wiring_of


class Bias(NamedTuple):
    """What the two legs of a pair rest at in one session: the leg that reads less comes first."""

    pair: Pair
    low: Site
    low_reading: Reading
    high: Site
    high_reading: Reading
    low_v: float
    high_v: float


def _work_out(vehicle: Vehicle) -> tuple[Bias, ...]:
    return tuple(bias for pair in wiring_of(vehicle).pairs for bias in _of_pair(pair))


biases_of = LastAnswer(_work_out)
"""Every two legs of a vehicle that were read at volume zero in one session."""


def _of_pair(pair: Pair) -> Iterator[Bias]:
    for positive in pair.positives:
        for negative in pair.negatives:
            yield from _of_legs(pair, positive, negative)


def _of_legs(pair: Pair, positive: Site, negative: Site) -> Iterator[Bias]:
    ours, theirs = (list(ground_volts(leg.pin, ("radio_on_zero",))) for leg in (positive, negative))
    for session in dict.fromkeys(reading.session for reading in ours):
        mine, its = ([r for r in group if r.session == session] for group in (ours, theirs))
        for one, other in taken_together(mine, its):
            yield _sorted(pair, (positive, one), (negative, other))


def _sorted(pair: Pair, one: tuple[Site, Reading], other: tuple[Site, Reading]) -> Bias:
    one_v, other_v = value_of(one[1]), value_of(other[1])
    if one_v <= other_v:
        return Bias(pair, *one, *other, one_v, other_v)
    return Bias(pair, *other, *one, other_v, one_v)


def is_mate(site: Site, reading: Reading, wiring: Wiring) -> bool:
    """Whether a reading at one leg was taken against the other leg of its channel."""
    if reading.against in GROUND_REFERENCES:
        return False
    return any(is_other_leg(site.pin, other.pin) for other in wiring.target(site, reading.against))

"""Polarity, delay and all-pass of one pair against another that was recorded with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.optimize import least_squares

from builder.sound.arrays import Samples
from builder.sound.between import Between
from builder.sound.filters import PROCESSOR_RATES_HZ, all_pass_phase
from builder.sound.results import Measured, Refused, Result
from builder.units import Hertz, Milliseconds

GOOD_DEGREES: Final = 1.0
"""How far a phase may be from its line, RMS, for the line to be all that is there."""
WORST_DEGREES: Final = 6.0
"""Beyond it nothing that is looked for explains the phase."""
BETTER: Final = 2.0
"""By how much an all-pass has to lower what is left to be believed. These three: chosen by this
project, from simulated cars."""
NARROWEST: Final = 8.0
"""How many times the lowest frequency the highest has to be for an all-pass to be told."""
NARROW: Final = (
    "the two pairs have less than three octaves in common, too little to tell an all-pass"
)
LOWEST_Q, HIGHEST_Q = 0.35, 5.0
_METHOD_MS: Final = 0.001


@dataclass(frozen=True, slots=True)
class Line:
    """A phase as a delay, a polarity and at most one all-pass.

    `late_ms` is how much later the second pair is; `inverted` says whether it goes down at low
    frequencies while the first goes up. An all-pass has its corner and Q, 0 for the first order;
    `turns_second` says whether it is in the second pair. `left_degrees` is what no line explains.
    """

    late_ms: Milliseconds
    inverted: bool
    corner_hz: Hertz
    q: float
    turns_second: bool
    left_degrees: float


@dataclass(frozen=True, slots=True)
class Relation:
    """How a second pair stands to a first: what could be said of it.

    `all_pass` is the corner; `all_pass_order` 0 where there is none.
    """

    late_ms: Result
    inverted: bool | Refused
    all_pass_order: int | Refused
    all_pass_hz: Result
    all_pass_q: Result
    turns_second: bool


def relation_of(phases: Between, taken: Samples | None) -> Relation:
    """Return delay, polarity and all-pass of two pairs that play much of the same.

    Args:
        phases: The second pair against the first.
        taken: The phase of the second pair's crossovers, taken away first; without it, what its
            loudness alone turns.
    """
    phase = phases.phase - (phases.least_phase if taken is None else taken)
    if phases.hz[-1] < NARROWEST * phases.hz[0]:
        return plain_relation(phases.hz, phase, NARROW)
    best = _fitted(phases.hz, phase, [(0.0, 0.0)], False)
    for order in (1, 2):
        turned = min(_turned(phases.hz, phase, order), key=lambda line: line.left_degrees)
        best = turned if _needs(best, turned) else best
    return _told(phases.hz, best)


def plain_relation(hz: Samples, phase: Samples, why_no_all_pass: str) -> Relation:
    """Return delay and polarity alone, of a phase that is freed of all filters."""
    told = _told(hz, _fitted(hz, phase, [(0.0, 0.0)], False))
    none = Refused(why_no_all_pass)
    return replace(told, all_pass_order=none, all_pass_hz=none, all_pass_q=none)


def refused_relation(reason: str) -> Relation:
    """Return a relation of which nothing can be said."""
    why = Refused(reason)
    return Relation(why, why, why, why, why, False)


def _needs(plain: Line, turned: Line) -> bool:
    """Whether an all-pass of the next order is there.

    One of the second order with a low Q can stand for one of the first and a turned polarity, so
    the simpler one is asked first.
    """
    return plain.left_degrees > GOOD_DEGREES and turned.left_degrees * BETTER < plain.left_degrees


def _told(hz: Samples, line: Line) -> Relation:
    if line.left_degrees > WORST_DEGREES:
        return refused_relation(
            f"a delay, a polarity and one all-pass leave {line.left_degrees:.0f}° of the phase "
            "between the pairs unexplained: look for sound effects that are still on"
        )
    spread_ms = 3000 * line.left_degrees / 360 / float(hz[-1])
    late = Measured(line.late_ms, _METHOD_MS + spread_ms)
    if not line.corner_hz:
        none = Refused("there is no all-pass between the two pairs")
        return Relation(late, line.inverted, 0, none, none, False)
    share = 0.006 + 0.006 * line.left_degrees
    corner = Measured(line.corner_hz, share * line.corner_hz)
    q: Result = Refused("an all-pass of the first order has no Q")
    if line.q:
        q = Measured(line.q, 2 * share * line.q)
    return Relation(late, line.inverted, 2 if line.q else 1, corner, q, line.turns_second)


def _turned(hz: Samples, phase: Samples, order: int) -> Iterator[Line]:
    """The best line with an all-pass of an order, in each of the pairs, for each processor."""
    corners = np.geomspace(1.5 * hz[0], hz[-1] / 1.5, 70)
    qs = np.geomspace(LOWEST_Q, HIGHEST_Q, 10) if order == 2 else [0.0]
    tried = [(float(corner), float(q)) for corner in corners for q in qs]
    for turns_second in (True, False):
        rough = _fitted(hz, phase, tried, turns_second)
        for processor_hz in PROCESSOR_RATES_HZ:
            yield _refined(hz, phase, rough, processor_hz)


def _refined(hz: Samples, phase: Samples, rough: Line, processor_hz: Hertz | None) -> Line:
    """The same line with corner and Q moved to where least is left."""
    sign = 1.0 if rough.turns_second else -1.0

    def missed(logs: Samples) -> Samples:
        q = float(np.exp(logs[1])) if rough.q else 0.0
        turned = all_pass_phase(hz, float(np.exp(logs[0])), q, processor_hz)
        return np.asarray(_straightened(hz, (phase - sign * turned)[None])[2][0])

    begin, low, high = [rough.corner_hz], [float(hz[0])], [float(hz[-1])]
    if rough.q:
        begin, low, high = [*begin, rough.q], [*low, LOWEST_Q / 1.1], [*high, HIGHEST_Q * 1.1]
    bounds = (np.log(low), np.log(high))
    found = np.exp(least_squares(missed, np.log(begin), x_scale=0.1, bounds=bounds).x)
    corner_hz, q = float(found[0]), float(found[1]) if rough.q else 0.0
    turned = all_pass_phase(hz, corner_hz, q, processor_hz)
    line = _straight(hz, (phase - sign * turned)[None], 0)
    return replace(line, corner_hz=corner_hz, q=q, turns_second=rough.turns_second)


def _fitted(
    hz: Samples, phase: Samples, tried: list[tuple[float, float]], turns_second: bool
) -> Line:
    """The line of least rest among all-passes that are tried; a corner of 0 stands for none."""
    sign = 1.0 if turns_second else -1.0
    turned = np.array(
        [all_pass_phase(hz, f, q, None) if f else np.zeros(len(hz)) for f, q in tried]
    )
    phases = phase[None] - sign * turned
    best = int(np.argmin(np.sum(_straightened(hz, phases)[2] ** 2, axis=1)))
    line = _straight(hz, phases, best)
    return replace(line, corner_hz=tried[best][0], q=tried[best][1], turns_second=turns_second)


def _straight(hz: Samples, phases: Samples, row: int) -> Line:
    """One of several phases as a delay and a polarity alone."""
    halves, late_s, left = _straightened(hz, phases[row : row + 1])
    rest = float(np.degrees(np.sqrt(np.mean(left**2))))
    return Line(1000 * float(late_s[0]), bool(halves[0] % 2), 0.0, 0.0, True, rest)


def _straightened(hz: Samples, phases: Samples) -> tuple[Samples, Samples, Samples]:
    """Half turns, delay and rest of each phase, a row each, by a straight line over frequency.

    A polarity is a half turn at all frequencies, so the line begins at a whole number of them.
    """
    turns = 2 * np.pi * hz
    both = np.stack([np.ones(len(hz)), -turns], axis=1)
    free = phases @ np.linalg.pinv(both).T
    halves = np.rint(free[:, 0] / np.pi)
    level = phases - np.pi * halves[:, None]
    late_s = -(level @ turns) / np.sum(turns**2)
    return halves, late_s, level + late_s[:, None] * turns

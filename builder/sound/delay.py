"""Polarity, delay and all-pass of one pair against another that was recorded with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.optimize import least_squares

from builder.sound.arrays import Samples
from builder.sound.between import Between
from builder.sound.filters import all_pass_phase
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
    plain = _fitted(phases.hz, phase, [(0.0, 0.0)], False)
    turned = min(_turned(phases.hz, phase), key=lambda line: line.left_degrees)
    return _told(phases.hz, turned if _needs(plain, turned) else plain)


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
    """Whether an all-pass is there, and not the end of what is heard taken for one."""
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
    share = 0.005 + 0.003 * line.left_degrees
    corner = Measured(line.corner_hz, share * line.corner_hz)
    q: Result = Refused("an all-pass of the first order has no Q")
    if line.q:
        q = Measured(line.q, 2 * share * line.q)
    return Relation(late, line.inverted, 2 if line.q else 1, corner, q, line.turns_second)


def _turned(hz: Samples, phase: Samples) -> Iterator[Line]:
    """The best line with an all-pass, of each order and in each of the pairs."""
    corners = np.geomspace(1.5 * hz[0], hz[-1] / 1.5, 70)
    seconds = [(corner, q) for corner in corners for q in np.geomspace(0.35, 5.0, 10)]
    for turns_second in (True, False):
        for tried in ([(corner, 0.0) for corner in corners], seconds):
            rough = _fitted(hz, phase, tried, turns_second)
            yield _refined(hz, phase, rough)


def _refined(hz: Samples, phase: Samples, rough: Line) -> Line:
    """The same line with corner and Q moved to where least is left."""
    sign = 1.0 if rough.turns_second else -1.0

    def missed(logs: Samples) -> Samples:
        q = float(np.exp(logs[1])) if rough.q else 0.0
        left = phase - sign * all_pass_phase(hz, float(np.exp(logs[0])), q)
        return np.asarray(_straightened(hz, left[None])[2][0])

    begin = np.log([rough.corner_hz, rough.q]) if rough.q else np.log([rough.corner_hz])
    found = np.exp(least_squares(missed, begin, x_scale=0.1).x)
    tried = [(float(found[0]), float(found[1]) if rough.q else 0.0)]
    return _fitted(hz, phase, tried, rough.turns_second)


def _fitted(
    hz: Samples, phase: Samples, tried: list[tuple[float, float]], turns_second: bool
) -> Line:
    """The line of least rest among all-passes that are tried; a corner of 0 stands for none."""
    sign = 1.0 if turns_second else -1.0
    turned = np.array([all_pass_phase(hz, f, q) if f else np.zeros(len(hz)) for f, q in tried])
    halves, late_s, left = _straightened(hz, phase[None] - sign * turned)
    rest = np.degrees(np.sqrt(np.mean(left**2, axis=1)))
    best = int(np.argmin(rest))
    corner_hz, q = tried[best]
    return Line(
        1000 * float(late_s[best]),
        bool(halves[best] % 2),
        corner_hz,
        q,
        turns_second,
        float(rest[best]),
    )


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

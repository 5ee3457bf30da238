"""Crossovers and all-passes as formulas: what is looked for in a response.

A corner is where the filter is 3 dB down; of a Linkwitz-Riley filter, of which two halves add up to
one, where it is 6 dB down.
Source: Butterworth sections 2 cos of equal angles; Linkwitz-Riley, two Butterworth filters in a
row, Linkwitz, JAES 24 (1976); Bessel sections, poles scaled to 3 dB: from memory, held in tests
against scipy.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi
from typing import Final, Literal

import numpy as np

from builder.sound.arrays import Samples, Spectrum
from builder.units import Decibels, Hertz

Way = Literal["low-pass", "high-pass"]


@dataclass(frozen=True, slots=True)
class FilterType:
    """A kind of crossover: its name, its order, and its sections as (frequency, Q).

    A section of the first order has Q 0. Frequencies are shares of the corner, as a low-pass has
    them.
    """

    name: str
    order: int
    sections: tuple[tuple[float, float], ...]

    @property
    def slope_db(self) -> Decibels:
        """How steep it is far from its corner, by an octave: 6 for each order. [dB]"""
        return 6.0 * self.order


def _butterworth(order: int) -> tuple[tuple[float, float], ...]:
    angles = [(2 * k + 1 + order % 2) * pi / (2 * order) for k in range(order // 2)]
    if order % 2:
        angles = [(k + 1) * pi / order for k in range(order // 2)]
    pairs = tuple((1.0, 1 / (2 * cos(angle))) for angle in angles)
    return (((1.0, 0.0),) if order % 2 else ()) + pairs


def _twice(order: int) -> tuple[tuple[float, float], ...]:
    return _butterworth(order) * 2


FILTER_TYPES: Final = (
    *(FilterType(f"Butterworth {n}", n, _butterworth(n)) for n in (1, 2, 3, 4, 6)),
    *(FilterType(f"Linkwitz-Riley {2 * n}", 2 * n, _twice(n)) for n in (1, 2, 4)),
    FilterType("Bessel 2", 2, ((1.2720, 0.5774),)),
    FilterType("Bessel 4", 4, ((1.4302, 0.5219), (1.6034, 0.8055))),
)
PROCESSOR_RATES_HZ: Final = (None, 48_000.0, 44_100.0)
"""A filter of coils, or of a processor that works at a rate: near half of it the frequencies of its
filters are drawn together. Common practice (bilinear transform, corner kept in its place)."""
_PROCESSOR_FROM_HZ: Final = 300.0
"""Below it no rate of a processor can be seen in a filter."""


def rates_near(hz: Hertz) -> tuple[Hertz | None, ...]:
    """Return the rates of processors that can be told by a filter around a frequency."""
    return PROCESSOR_RATES_HZ if hz > _PROCESSOR_FROM_HZ else (None,)


def crossover(
    kind: FilterType, way: Way, hz: Samples, corner_hz: Hertz, processor_hz: Hertz | None
) -> Spectrum:
    """Return what a crossover lets through at each frequency, 1 where it lets through all."""
    turned = 1j * drawn_together(hz, corner_hz, processor_hz)
    if way == "high-pass":
        turned = 1 / turned
    through = np.ones(len(hz), np.complex128)
    for share, q in kind.sections:
        at = turned / share
        through = through / (1 + at if q == 0 else 1 + at / q + at**2)
    return through


def drawn_together(hz: Samples, corner_hz: Hertz, processor_hz: Hertz | None) -> Samples:
    """Return frequencies as shares of a corner, as a processor of that rate has them."""
    if processor_hz is None or corner_hz >= processor_hz / 2:
        return np.asarray(hz / corner_hz)
    highest = 0.499 * processor_hz
    tangents = np.tan(pi * np.minimum(hz, highest) / processor_hz)
    return np.asarray(tangents / np.tan(pi * corner_hz / processor_hz))


def all_pass_phase(hz: Samples, corner_hz: Hertz, q: float, processor_hz: Hertz | None) -> Samples:
    """Return the phase of an all-pass, from 0 at 0 Hz downwards; Q 0 is the first order. [rad]

    At its corner the first order turns by 90°, the second by 180°.
    """
    share = drawn_together(hz, corner_hz, processor_hz)
    if q == 0:
        return np.asarray(-2 * np.arctan(share))
    return np.asarray(-2 * np.arctan2(share / q, 1 - share**2))

"""Corner, slope and type of a crossover: against a pair that plays all, or where two halves cross.

A pair alone shows its edge, which the equaliser has moved as well: no crossover is made of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.optimize import least_squares

from builder.sound.arrays import Samples
from builder.sound.between import Between
from builder.sound.filters import FILTER_TYPES, FilterType, Way, crossover, rates_near
from builder.sound.results import Measured, Refused, Result
from builder.units import Decibels, Hertz

FALLEN_DB: Final = 9.0
"""So far a pair has to fall below the other for a crossover to be looked for."""
WORST_DB: Final = 0.4
"""How far, RMS, a response may be from the best filter for that filter to be believed."""
AS_GOOD: Final = 1.6
"""A type is told from another that leaves so many times as much. These: chosen by this project."""
MOST_SPREAD: Final = 0.06
_LEAST_LEFT_DB: Final = 0.02


@dataclass(frozen=True, slots=True)
class Fit:
    """One filter laid through a response, what it leaves, and its gain."""

    kind: FilterType
    way: Way
    corner_hz: Hertz
    processor_hz: Hertz | None
    left_db: Decibels


@dataclass(frozen=True, slots=True)
class Crossover:
    """What can be said of one half: which way, its corner, slope and type, or why not.

    `model` is what phases are freed of; None where nothing fits.
    """

    way: Way
    corner_hz: Result
    slope_db: Result
    kind: str | Refused
    model: Fit | None


def crossovers_of(pairs: Between) -> tuple[Crossover, ...]:
    """Return the crossovers of the second pair, the first being one that plays all: none to two."""
    top_db = float(np.median(pairs.db[pairs.db >= np.max(pairs.db) - 3.0]))
    middle = np.exp(np.mean(np.log(pairs.hz[pairs.db >= top_db - 3.0])))
    ways: tuple[tuple[Way, bool, Samples], ...] = (
        ("high-pass", pairs.db[0] < top_db - FALLEN_DB, pairs.hz <= middle),
        ("low-pass", pairs.db[-1] < top_db - FALLEN_DB, pairs.hz >= middle),
    )
    return tuple(
        _told(way, sorted(_fits(pairs.hz[inside], pairs.db[inside], way), key=_left))
        for way, fallen, inside in ways
        if fallen
    )


def _left(fit: Fit) -> Decibels:
    return fit.left_db


def _fits(hz: Samples, db: Samples, way: Way) -> Iterator[Fit]:
    """Every type at its best corner, for each rate of a processor that could have made it."""
    half_db = np.max(db) - 6.0
    rough_hz = float(hz[int(np.argmin(np.abs(db - half_db)))])
    for kind in FILTER_TYPES:
        for processor_hz in rates_near(rough_hz):
            yield _fit(hz, db, kind, way, processor_hz, rough_hz)


def _fit(
    hz: Samples,
    db: Samples,
    kind: FilterType,
    way: Way,
    processor_hz: Hertz | None,
    rough_hz: Hertz,
) -> Fit:
    def missed(place: Samples) -> Samples:
        filtered = crossover(kind, way, hz, rough_hz * float(np.exp(place[0])), processor_hz)
        left = db - 20 * np.log10(np.maximum(np.abs(filtered), 1e-9))
        return np.asarray(left - np.mean(left))

    found = least_squares(missed, [0.0], x_scale=0.1)
    rest = float(np.sqrt(np.mean(found.fun**2)))
    return Fit(kind, way, rough_hz * float(np.exp(found.x[0])), processor_hz, rest)


def _of_processors(fits: list[Fit]) -> list[Fit]:
    """The fits without those of coils, unless these alone come near.

    What stands at a radio's output is made by a processor; coils hang at the speaker, behind it.
    """
    made = [fit for fit in fits if fit.processor_hz is not None]
    coils = [fit for fit in fits if fit.processor_hz is None]
    if made and coils and made[0].left_db <= AS_GOOD * max(coils[0].left_db, _LEAST_LEFT_DB):
        return made
    return fits


def _told(way: Way, fits: list[Fit]) -> Crossover:
    """What the best fits have in common."""
    fits = _of_processors(fits)
    best = fits[0]
    if best.left_db > WORST_DB:
        why = Refused(
            f"no crossover that is known comes nearer than {best.left_db:.1f} dB: the equaliser of "
            "this pair is another than that of the pair beside it"
        )
        return Crossover(way, why, why, why, None)
    limit_db = AS_GOOD * max(best.left_db, _LEAST_LEFT_DB)
    good = [fit for fit in fits if fit.left_db <= limit_db]
    names = sorted({fit.kind.name for fit in good})
    slopes = {fit.kind.slope_db for fit in good}
    kind: str | Refused = names[0]
    if len(names) > 1:
        kind = Refused(f"{' and '.join(names)} fit equally well")
    slope: Result = Measured(best.kind.slope_db, 0.0)
    if len(slopes) > 1:
        slope = Refused(f"{' and '.join(names)} fit equally well")
    # Processor rates and types that fit as well place the corner elsewhere: all of that is open.
    away = max(abs(fit.corner_hz - best.corner_hz) for fit in good)
    spread = away + best.corner_hz * (0.004 + 0.05 * best.left_db)
    corner: Result = Measured(best.corner_hz, spread)
    if spread > MOST_SPREAD * best.corner_hz:
        corner = Refused(f"{' and '.join(names)} fit equally well, with corners far apart")
    return Crossover(way, corner, slope, kind, best)


def phase_of(found: tuple[Crossover, ...], hz: Samples) -> Samples | None:
    """Return how crossovers turn a phase, unwrapped; None unless each of them is known. [rad]"""
    models = [each.model for each in found if each.model is not None]
    if len(models) < len(found):
        return None
    turned = np.zeros(len(hz))
    for fit in models:
        values = crossover(fit.kind, fit.way, hz, fit.corner_hz, fit.processor_hz)
        turned = turned + np.unwrap(np.angle(values))
    return turned

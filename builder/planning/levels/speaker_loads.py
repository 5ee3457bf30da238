"""What an amplifier sees: voice coils in parallel, a resistor in their place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.planning.preferred import next_size
from builder.planning.tables import STAND_IN_RATINGS_W
from builder.units import Ohms, Volts, Watts, require_positive


def side_by_side_ohm(coils_ohm: Iterable[Ohms]) -> Ohms:
    """Return voice coils in parallel. [Ω]

    Raises:
        ValueError: no coil, or one is not positive and finite.

    >>> side_by_side_ohm([4.0, 4.0])
    2.0
    """
    return 1 / sum(1 / coil for coil in _coils(coils_ohm))


def _coils(coils_ohm: Iterable[Ohms]) -> list[Ohms]:
    listed = [require_positive("coil", coil) for coil in coils_ohm]
    if not listed:
        raise ValueError("no voice coil")
    return listed


@dataclass(frozen=True, slots=True)
class StandInLoad:
    """A resistor that takes a speaker's place at a radio that looks for one."""

    ohm: Ohms
    sine_w: Watts
    square_w: Watts
    rating_w: Watts  # what it must stand: twice the sine or once the square wave


def stand_in_load(source_v_rms: Volts, ohm: Ohms) -> StandInLoad:
    """Return what a stand-in resistor dissipates and must be rated for. [W]

    The square wave of the same peak holds twice the power.

    Raises:
        ValueError: an argument is not positive and finite.

    >>> round(stand_in_load(8.944, 47.0).sine_w, 2)
    1.7
    """
    sine = require_positive("source_v_rms", source_v_rms) ** 2 / require_positive("ohm", ohm)
    return StandInLoad(ohm, sine, 2 * sine, 2 * sine)


def stand_in_words(load: StandInLoad) -> str:
    """Return what is ordered, the next power that is sold: "47 Ω 5 W"."""
    watts = next_size(load.rating_w, STAND_IN_RATINGS_W) or STAND_IN_RATINGS_W[-1]
    return f"{load.ohm:g} Ω {watts:g} W"

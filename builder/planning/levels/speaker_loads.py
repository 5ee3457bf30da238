"""What an amplifier sees: voice coils in parallel or series, nominal ohms from a meter."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.tables import NOMINAL_SPEAKER_OHMS
from builder.units import Ohms, Volts, Watts, require_positive

_HAIR = 1e-9  # a reading on the edge of a band belongs to it, whatever binary fractions say


def series_ohm(coils_ohm: Iterable[Ohms]) -> Ohms:
    """Return voice coils one after another. [Ω]

    Raises:
        ValueError: no coil, or one is not positive and finite.
    """
    listed = _coils(coils_ohm)
    return sum(listed)


def side_by_side_ohm(coils_ohm: Iterable[Ohms]) -> Ohms:
    """Return voice coils in parallel. [Ω]

    Raises:
        ValueError: no coil, or one is not positive and finite.
    """
    return 1 / sum(1 / coil for coil in _coils(coils_ohm))


def _coils(coils_ohm: Iterable[Ohms]) -> list[Ohms]:
    listed = [require_positive("coil", coil) for coil in coils_ohm]
    if not listed:
        raise ValueError("no voice coil")
    return listed


@dataclass(frozen=True, slots=True)
class CoilWiring:
    """One way to join equal coils: `strings` of `in_series` coils each, side by side."""

    in_series: int
    strings: int
    load_ohm: Ohms
    allowed: bool  # not under the amplifier's least load


def coil_wirings(coil_ohm: Ohms, count: int, least_ohm: Ohms) -> tuple[CoilWiring, ...]:
    """Return every even way to join `count` equal coils, lowest load first.

    Raises:
        ValueError: an argument is not positive and finite.
    """
    require_positive("coil_ohm", coil_ohm)
    require_positive("least_ohm", least_ohm)
    require_positive("count", count)
    ways = ((row, count // row) for row in range(1, count + 1) if count % row == 0)
    loads = ((row, strings, coil_ohm * row / strings) for row, strings in ways)
    return tuple(
        CoilWiring(row, strings, load, load >= least_ohm * (1 - _HAIR))
        for row, strings, load in loads
    )


def nominal_ohms(
    reading_ohm: Ohms,
    defaults: HouseDefaults,
    nominals: Iterable[Ohms] = NOMINAL_SPEAKER_OHMS,
) -> tuple[Ohms, ...]:
    """Return every nominal impedance whose DC band holds the reading, lowest first. [Ω]

    A meter reads 0.7 to 1.0 of the nominal ohms; bands overlap, so two answers are honest where
    two fit, and none where the reading lies between bands. Leads are taken off beforehand.

    Raises:
        ValueError: the reading is not positive and finite.
    """
    require_positive("reading_ohm", reading_ohm)
    low, high = defaults.speaker_dc_min_share, defaults.speaker_dc_max_share
    return tuple(
        nominal
        for nominal in sorted(nominals)
        if low * nominal * (1 - _HAIR) <= reading_ohm <= high * nominal * (1 + _HAIR)
    )


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
    """
    sine = require_positive("source_v_rms", source_v_rms) ** 2 / require_positive("ohm", ohm)
    return StandInLoad(ohm, sine, 2 * sine, 2 * sine)

"""One conductor as a plan uses it: size, metal, resistance, the largest fuse before it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from builder.model.house_defaults import HouseDefaults
from builder.model.wire import Sized
from builder.model.words import Material
from builder.planning.power.tables import (
    CHOICE_AWG,
    CHOICE_MM2,
    SMALL_CRAFT_AMPACITY_A,
)
from builder.planning.power.wire_gauge import (
    awg_area_mm2,
    awg_ohm_per_km,
    copper_area_mm2,
    metric_ohm_per_km,
    small_craft_ampacity_a,
    temperature_factor,
)
from builder.planning.tables import HOUSE_DEFAULT
from builder.units import Amperes

COPPER: Final = "copper"
COPPER_CLAD: Final = "copper_clad_aluminium"


@dataclass(frozen=True, slots=True)
class Conductor:
    """A size and a metal. Exactly one of the sizes is set.

    Raises:
        ValueError: no size, or two.
    """

    size_awg: str | None = None
    size_mm2: float | None = None
    material: Material = COPPER

    def __post_init__(self) -> None:
        if (self.size_awg is None) == (self.size_mm2 is None):
            raise ValueError("a conductor has one size: AWG or mm²")

    @property
    def words(self) -> str:
        """The size and metal as a person says them: "4 AWG copper"."""
        size = f"{self.size_mm2:g} mm²" if self.size_awg is None else f"{self.size_awg} AWG"
        return f"{size} {_METALS[self.material]}"


_METALS: dict[Material, str] = {
    COPPER: "copper",
    COPPER_CLAD: "copper-clad aluminium",
    "unknown": "of unknown metal",
}


def awg(size: str, material: Material = COPPER) -> Conductor:
    """Return a conductor of an AWG size."""
    return Conductor(size_awg=size, material=material)


def square_mm(size: float, material: Material = COPPER) -> Conductor:
    """Return a conductor of a nominal metric size."""
    return Conductor(size_mm2=size, material=material)


def conductor_of(of: Sized | None, material: Material = COPPER) -> Conductor | None:
    """Return what a wire, a lead or each conductor of a cable is; None where its size is open."""
    if of is None or (of.size_awg is None and of.size_mm2 is None):
        return None
    return Conductor(of.size_awg, of.size_mm2, material)


def choice_awg(material: Material = COPPER) -> tuple[Conductor, ...]:
    """Return the AWG sizes a plan chooses from, thinnest first."""
    return tuple(awg(size, material) for size in CHOICE_AWG)


def choice_mm2(material: Material = COPPER) -> tuple[Conductor, ...]:
    """Return the metric sizes a plan chooses from, thinnest first."""
    return tuple(square_mm(size, material) for size in CHOICE_MM2)


def is_copper(conductor: Conductor) -> bool:
    """Return whether the metal is known to be copper all through; unknown is not."""
    return conductor.material == COPPER


def ohm_per_km(conductor: Conductor, defaults: HouseDefaults) -> float:
    """Return the resistance at 20 °C. [Ω/km]

    AWG by the solid law, metric by the limit of IEC 60228 class 5. Whatever is not known to be
    copper counts as copper-clad aluminium.

    Raises:
        ValueError: the size is unknown.

    >>> round(ohm_per_km(awg("4"), HouseDefaults()), 3)
    0.815
    """
    plain = _copper_ohm_per_km(conductor)
    return plain if is_copper(conductor) else plain * defaults.cca_resistance_factor


def _copper_ohm_per_km(conductor: Conductor) -> float:
    if conductor.size_awg is not None:
        return awg_ohm_per_km(conductor.size_awg)
    assert conductor.size_mm2 is not None
    return metric_ohm_per_km(conductor.size_mm2)


def hot_ohm_per_km(conductor: Conductor, defaults: HouseDefaults) -> float:
    """Return the resistance at the working temperature of the book. [Ω/km]

    Raises:
        ValueError: the size is unknown or the temperature absurd.

    >>> round(hot_ohm_per_km(awg("4"), HouseDefaults()), 3)
    0.879
    """
    return ohm_per_km(conductor, defaults) * temperature_factor(defaults.hot_conductor_c)


def effective_area_mm2(conductor: Conductor) -> float:
    """Return the area of copper that has the conductor's resistance. [mm²]

    The clad metal is left out of account. Lets metric and AWG sizes be compared by what they
    conduct: 16 mm² counts as 14.2 mm², the least its standard guarantees.

    Raises:
        ValueError: the size is unknown.

    >>> round(effective_area_mm2(square_mm(16.0)), 1)
    14.2
    """
    return copper_area_mm2(_copper_ohm_per_km(conductor))


def fuse_ceiling_a(conductor: Conductor, defaults: HouseDefaults) -> Amperes:
    """Return the largest fuse that may stand before a conductor. [A]

    The house table for its AWG sizes: nobody records how hot an insulation may get, so no size
    stands behind more than a wire of 60 °C insulation carries. Between them a straight line over
    the area that conducts, under the thinnest in proportion to it, beyond the thickest no more
    than that; a fuse is then rounded down to a standard size. Not known to be copper: times a
    factor.

    Raises:
        ValueError: the size is unknown.
    Source: house defaults; 1/0 and 2 AWG are the 60 °C column of 33 CFR 183.425 table 5 (read),
    every other size lies under it: tests/vectors/small_craft.json.

    >>> round(fuse_ceiling_a(square_mm(16.0), HouseDefaults()), 1)
    73.6
    """
    ceiling = _copper_ceiling_a(effective_area_mm2(conductor), house_ceilings_a(defaults))
    return ceiling if is_copper(conductor) else ceiling * defaults.cca_fuse_factor


def ceiling_source(conductor: Conductor) -> str:
    """Return where the largest fuse of a conductor comes from, and what it is held against."""
    size = conductor.size_awg
    if size not in SMALL_CRAFT_AMPACITY_A:
        return f"{HOUSE_DEFAULT}; no published value for this size"
    carried = small_craft_ampacity_a(size, 60)
    return (
        f"{HOUSE_DEFAULT}, held against what copper of 60 °C insulation carries in a boat, "
        f"{carried:g} A: 33 CFR 183.425 table 5 (read)"
    )


def _copper_ceiling_a(area_mm2: float, ceilings: dict[str, Amperes]) -> Amperes:
    points = [(0.0, 0.0), *((awg_area_mm2(size), amps) for size, amps in ceilings.items())]
    steps = (
        (high - low) * min(1.0, max(0.0, (area_mm2 - thin) / (thick - thin)))
        for (thin, low), (thick, high) in pairwise(points)
    )
    return round(sum(steps), 6)  # float noise takes no fuse from a size of the table


def house_ceilings_a(defaults: HouseDefaults) -> dict[str, Amperes]:
    """Return the house's largest fuse before a copper wire, by AWG size, thinnest first. [A]"""
    return {
        "22": defaults.fuse_ceiling_awg_22_a,
        "20": defaults.fuse_ceiling_awg_20_a,
        "18": defaults.fuse_ceiling_awg_18_a,
        "16": defaults.fuse_ceiling_awg_16_a,
        "14": defaults.fuse_ceiling_awg_14_a,
        "12": defaults.fuse_ceiling_awg_12_a,
        "10": defaults.fuse_ceiling_awg_10_a,
        "8": defaults.fuse_ceiling_awg_8_a,
        "6": defaults.fuse_ceiling_awg_6_a,
        "4": defaults.fuse_ceiling_awg_4_a,
        "2": defaults.fuse_ceiling_awg_2_a,
        "1/0": defaults.fuse_ceiling_awg_1_0_a,
    }

"""What a good core of a cable takes from end to end on the table: at most, and at least."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.model import CircuitWire
from builder.planning.harness.cables_of import far_spare_m
from builder.planning.harness.rows import LoomCableRow
from builder.planning.power.conductors import COPPER, COPPER_CLAD, ohm_per_km
from builder.planning.power.wire_gauge import temperature_factor
from builder.planning.views.names import wire_words

STRANDED_OVER: Final = 1.12
SHOP_C: Final = (10.0, 30.0)
"""What stranded, tinned copper of an AWG size takes at most, as a multiple of solid copper: 23.2 Ω
a kilometre at 18 AWG, 59.4 at 22, UL 758 from memory; a metric size has its most in its standard.
By as much a core may take less than solid copper of its size. How cold and how warm a shop is while
it rings a loom out: common practice, no source."""


def cable_most_ohm(wire: CircuitWire, defaults: HouseDefaults) -> float | None:
    """Return what a conductor takes from end to end at most while nothing is wrong with it [Ω]: as
    long as the house lets it be cut, in a warm shop; None where nobody recorded enough."""
    metre = most_ohm_per_m(wire, defaults)
    if metre is None or wire.length_m is None:
        return None
    return metre * (wire.length_m + defaults.bench_cable_mm / 1000)


def most_ohm_per_m(wire: CircuitWire, defaults: HouseDefaults) -> float | None:
    """Return what a metre of a good conductor takes at most in a warm shop [Ω]."""
    if wire.size is None:
        return None
    over = temperature_factor(SHOP_C[1]) * (STRANDED_OVER if wire.size.size_awg else 1.0)
    return over * ohm_per_km(wire.size, defaults) / 1000


def least_ohms(
    cores: Sequence[CircuitWire], cables: Sequence[LoomCableRow], defaults: HouseDefaults
) -> Mapping[str, float]:
    """Return what each core of the cables takes at least [Ω], by its words; one is left out of
    which nobody knows the size or how short it may be."""
    found = {}
    for core in cores:
        metre, metres = least_ohm_per_m(core, defaults), _shortest_m(core, cables, defaults)
        if metre is not None and metres is not None and metres > 0:
            found[wire_words(core)] = metre * metres
    return found


def _shortest_m(
    core: CircuitWire, cables: Sequence[LoomCableRow], house: HouseDefaults
) -> float | None:
    """As if a core were gone up to the jacket at the loom, and its far end cut off once for a nick:
    one figure for all cables of a kind."""
    (mine,) = (row for row in cables if row.cable == core.piece)
    off = [row.off_mm for row in cables if row.material == mine.material and row.bands]
    known = [each for each in off if each is not None]
    if core.length_m is None or len(known) < len(off):
        return None
    return core.length_m - max(known, default=0.0) / 1000 - far_spare_m(house)


def least_ohm_per_m(core: CircuitWire, defaults: HouseDefaults) -> float | None:
    """Return what a metre of a conductor takes at least in a cold shop [Ω]: of copper, where the
    metal is not known."""
    if core.size is None:
        return None
    size = core.size if core.size.material == COPPER_CLAD else replace(core.size, material=COPPER)
    solid = ohm_per_km(size, defaults) / (1.0 if size.size_awg else STRANDED_OVER)
    return temperature_factor(SHOP_C[0]) * solid / STRANDED_OVER / 1000

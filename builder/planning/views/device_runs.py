"""The supply of each small device, as its conductors lie in the circuit: fuse, wire, drop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.house_defaults import HouseDefaults
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, CircuitWire, Link
from builder.planning.circuit.spice_wires import wire_ohm
from builder.planning.circuit.terminal_names import ground_of
from builder.planning.words import MAIN_FUSE, UnitKind
from builder.units import Amperes, Metres, Volts

_SMALL: tuple[UnitKind, ...] = ("converter", "driver", "interface")


@dataclass(frozen=True, slots=True)
class DeviceRun:
    """One device's own way from where it is tapped, and back. None where no wire of the job is
    laid or its draw is not on record."""

    name: str
    fuse_a: Amperes | None
    conductor: str
    current_a: Amperes | None
    length_m: Metres | None
    drop_v: Volts | None


def device_runs(circuit: Circuit, defaults: HouseDefaults) -> tuple[DeviceRun, ...]:
    """Return a run for each small device that a supply of the circuit leads to.

    The volts are those of its own conductors and no more: what is lost before the tap belongs to
    the run that it hangs on. Source: Ohm's law, at the temperature of the house's hot conductor.
    """
    return tuple(_runs(CircuitIndex(circuit), defaults))


def _runs(index: CircuitIndex, defaults: HouseDefaults) -> Iterator[DeviceRun]:
    grounds = {link.begins: link for link in index.circuit.links if link.carries == "ground"}
    for link in index.circuit.links:
        if link.carries != "supply" or link.finishes not in index.terminals:
            continue
        unit = index.unit_of(link.finishes)
        if unit.kind in _SMALL:
            yield _run(index, link, grounds.get(ground_of(unit.id)), defaults)


def _run(index: CircuitIndex, link: Link, home: Link | None, defaults: HouseDefaults) -> DeviceRun:
    links = (link,) if home is None else (link, home)
    wires = [wire for each in links for wire in index.wires_of(each) if not wire.stays]
    fuses = [part.value for part in index.elements_of(link)
             if part.kind == "fuse" and part.id != MAIN_FUSE]  # fmt: skip
    draw_ma = index.terminals[link.finishes].draw_ma
    current = None if draw_ma is None else draw_ma / 1000
    ohm = sum(wire_ohm(wire, defaults)[0] for wire in wires)
    lost = current * ohm if current is not None and wires else None
    sizes = dict.fromkeys(wire.size.words for wire in wires if wire.size is not None)
    conductor = " and ".join(sizes) or "by its own plug"
    return DeviceRun(link.id, min(fuses, default=None), conductor, current, _long(wires), lost)


def _long(wires: list[CircuitWire]) -> Metres | None:
    lengths = [wire.length_m for wire in wires if wire.length_m is not None]
    return sum(lengths) if lengths and len(lengths) == len(wires) else None

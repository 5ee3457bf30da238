"""Conductors and parts of a circuit as lines of a netlist."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.house_defaults import HouseDefaults
from builder.model.job import Job
from builder.planning.circuit.crossover_links import output_of
from builder.planning.circuit.model import CircuitWire, Element
from builder.planning.circuit.spice_crossovers import crossover_parts
from builder.planning.circuit.spice_lines import DeckLine, figure
from builder.planning.circuit.spice_nodes import Nodes
from builder.planning.circuit.supply_links import THE_BODY, THE_STRAP
from builder.planning.circuit.terminal_names import legs_of
from builder.planning.power.conductors import hot_ohm_per_km
from builder.planning.words import MAIN_FUSE
from builder.planning.work_pack import WorkPack
from builder.units import Ohms

LEAST_OHM = 1e-9
"""A wire of no length, for a simulator that divides by ohms."""

UNREAD_GROUND_OHM = 1e-6
"""Body and strap that nobody has read: nothing, as in the drops of the supply sheet."""

UNKNOWN_WIRE_OHM = 0.001
"""A wire of the car whose size or length nobody recorded. Common practice, no source."""

LINE_LEAD_OHM = 0.1
"""One conductor of a line lead as sold. Common practice, no source."""

CLOSED_FUSE_OHM = 1e-6
"""A fuse but the main one: the joints of a supply path are counted once, at the main fuse."""

OPEN_OHM = 1e6
"""A relay or a charger between two batteries: what is sized feeds from the second one alone."""

DIODE = "drop"


def wire_lines(nodes: Nodes, pack: WorkPack, defaults: HouseDefaults) -> Iterator[DeckLine]:
    """Yield a resistor for every conductor, of the car too; it says what it is and looks like."""
    labels = {label.jacket: label.text for label in pack.labels}
    for number, wire in enumerate(nodes.index.circuit.wires, 1):
        ohm, how = _strap_read(wire, pack) or wire_ohm(wire, defaults)
        said = [f'Rw{number} is wire "{wire.id}"', f"  {wire.colours}; {how}"]
        said.append(f"  {wire.purpose}; {wire.from_place} to {wire.to_place}")
        said += [f"  label: {labels[wire.piece]}"] if wire.piece in labels else []
        ends = (nodes.of(wire.ends[0]), nodes.of(wire.ends[1]))
        yield DeckLine(f"Rw{number}", ends, figure(ohm), tuple(said))


def _strap_read(wire: CircuitWire, pack: WorkPack) -> tuple[Ohms, str] | None:
    """The car's straps and body as the job read them, all of it in the strap; None for any other
    wire, and where nobody read them."""
    read_mohm = pack.power.strap_mohm if pack.power else None
    if wire.id != THE_STRAP or read_mohm is None:
        return None
    return max(read_mohm / 1000, LEAST_OHM), f"{read_mohm:g} mohm as read, the body with it"


def wire_ohm(wire: CircuitWire, defaults: HouseDefaults) -> tuple[Ohms, str]:
    """Return the resistance of a conductor at the house's temperature, and what it is made from."""
    if wire.size is not None and wire.length_m is not None:
        ohm = wire.length_m * hot_ohm_per_km(wire.size, defaults) / 1000
        hot = f"{defaults.hot_conductor_c:g} °C"
        return max(ohm, LEAST_OHM), f"{wire.size.words}, {wire.length_m:g} m at {hot}"
    if wire.id in (THE_BODY, THE_STRAP):
        return UNREAD_GROUND_OHM, "assumed: not read, counts as nothing"
    if wire.carries == "line":
        return LINE_LEAD_OHM, f"assumed: {LINE_LEAD_OHM:g} ohm, a line lead as sold"
    return UNKNOWN_WIRE_OHM, f"assumed: {UNKNOWN_WIRE_OHM:g} ohm, size or length not on record"


def part_lines(nodes: Nodes, job: Job, defaults: HouseDefaults) -> Iterator[DeckLine]:
    """Yield every fuse, resistor, voice coil, capacitor and diode, and each way of a crossover."""
    ways = crossover_parts(job)
    for number, part in enumerate(nodes.index.circuit.elements, 1):
        letter, value, how = _part(part, defaults)
        if part.id in ways:
            network, _, band = ways[part.id]
            unit = part.id.partition(" of ")[2]
            minus = nodes.of(legs_of(output_of(unit, band))[1])
            letter, value, how = "Xp", f"{minus} {network}", "its network stands below"
        name = f"{letter}{number}"
        told = f"  {part.rating}; {part.purpose}; at {part.place}; {how}"
        ends = (nodes.of(part.ends[0]), nodes.of(part.ends[1]))
        yield DeckLine(name, ends, value, (f'{name} is {part.kind} "{part.id}"', told))


def _part(part: Element, defaults: HouseDefaults) -> tuple[str, str, str]:
    if part.kind == "capacitor":
        return "Cp", figure(part.value / 1e6), "its own value"
    if part.kind == "diode":
        return "Xp", DIODE, f"loses {defaults.hold_up_diode_v:g} V, house default"
    if part.kind in ("resistor", "coil"):
        return "Rp", figure(part.value), "its own value"
    if part.kind in ("charger", "relay"):
        how = "assumed: open, so that the second battery feeds alone, which is what is sized"
        return "Rp", figure(OPEN_OHM), how
    if part.id == MAIN_FUSE:
        return "Rp", figure(defaults.joint_ohm), "all joints of the supply path, house default"
    return "Rp", figure(CLOSED_FUSE_OHM), "assumed: closed; joints are counted at the main fuse"


def diode_model(defaults: HouseDefaults) -> str:
    """Return a diode that loses the house's volts at any current, and lets nothing back.

    The exponent is so steep that the diode in it adds 0.6 mV at 1 A.
    """
    volts = figure(defaults.hold_up_diode_v)
    return (
        f".subckt {DIODE} a k\nV1 a m dc {volts}\nD1 m k steep\n"
        ".model steep d(n=0.001 is=1e-9)\n.ends"
    )

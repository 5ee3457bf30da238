"""Lines that find a new wire on the body, or in the wrong cavity, before power comes."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay import bands
from builder.planning.bay.line import WITH_THE_CIRCUIT, measure
from builder.planning.bay.work import BayWork
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, EndId, Link
from builder.planning.circuit.terminal_names import BODY_AT_STRAP, SIGNS, pair_input
from builder.planning.views.names import element_words
from builder.planning.work_pack import BayTest

SUPPLY_INSULATION = "supply-insulation"
SIGNAL_INSULATION = "signal-insulation"
PAIRS_APART = "pairs-apart"


def insulation_tests(work: BayWork) -> Iterator[BayTest]:
    """Yield supply leads, then the legs of every pair that floats, each against the body."""
    yield measure(
        SUPPLY_INSULATION, "far_end",
        "fuses out, no ring on a positive post, device ends open: each supply lead (no turn-on), "
        "both sides of its holder, to body and to each leg of every pair", "battery_off", "ohm",
        bands.INSULATION_MIN_OHM, None,
        "a pinched lead burns when battery or fuse goes in, or burns an output",
    )  # fmt: skip
    converter = work.parts.converter.name
    numbers = [
        tap.converter_input
        for tap in work.selection.taps
        if tap.pair.topology == "bridged" and not tap.pair.is_line
    ]
    if numbers:
        ends = [pair_input(converter, number, sign) for number in numbers for sign in SIGNS]
        yield measure(
            SIGNAL_INSULATION, "far_end",
            f"legs of {converter} in {', '.join(map(str, numbers))}, converter end open, radio "
            "apart: each to body and to each speaker wire", "battery_off", "ohm",
            work.defaults.body_open_ohm, None,
            "a leg on the body or on an amplifier's output shorts an output of the radio",
            tuple(end for leg in ends for end in (leg, BODY_AT_STRAP)), WITH_THE_CIRCUIT,
        )  # fmt: skip


def tapped_tests(circuit: Circuit) -> Iterator[BayTest]:
    """Yield one line for all that is taken from a cavity and switches or feeds a device.

    A neighbour has the same volts at most times: only the way from end to end tells them apart.
    """
    index = CircuitIndex(circuit)
    ways = [_way(index, link) for link in circuit.links if _is_tapped(index, link)]
    if not ways:
        return
    said = ", ".join(f"{cavity} to {there}" for cavity, _, there in ways)
    more = "; the highest counts" if ways[1:] else ""
    yield measure(
        "tapped-ways", "fused",
        f"{said}, test leads' ohms taken off{more}", "battery_off", "ohm", None,
        bands.TAPPED_MAX_OHM, "the cavity beside it may have the same volts at most times",
        tuple(end for cavity, end, _ in ways for end in (cavity, end)), WITH_THE_CIRCUIT,
    )  # fmt: skip


def _is_tapped(index: CircuitIndex, link: Link) -> bool:
    taken = link.carries in ("control", "supply")
    return taken and index.unit_of(link.begins).kind == "plug"


def _way(index: CircuitIndex, link: Link) -> tuple[EndId, EndId, str]:
    """Where a link begins, how far an ohmmeter reads it, and that end in words: to a diode."""
    for part in index.elements_of(link):
        if part.kind == "diode":
            return link.begins, part.ends[0], f"the plain end of the {element_words(part)}"
    return link.begins, link.finishes, link.finishes


def supply_ends(circuit: Circuit, beside: str) -> Iterator[EndId]:
    """Yield both ends of each supply lead of the job that can be read against the body.

    With every fuse out, what is tapped in the car's own wire before its fuse still hangs on it.
    `beside` is the link between two batteries, which has a line of its own.
    """
    index = CircuitIndex(circuit)
    for link in circuit.links:
        if link.carries != "supply" or link.id == beside:
            continue
        of_car = index.unit_of(link.begins).kind in ("plug", "fuse_position", "loom")
        behind_fuse = not of_car
        for piece in link.path:
            behind_fuse |= piece in index.elements
            wire = index.wires.get(piece)
            if wire is not None and behind_fuse and not wire.stays:
                yield from wire.ends

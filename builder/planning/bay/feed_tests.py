"""What reaches each small device of a job while it works, with a lamp that makes a bad joint show.

A converter draws hundredths of an ampere: an ohm in its feed loses nothing that a meter tells from
the battery, and lets it drop out all the same when it switches on.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.names import LOAD_NAMES
from builder.planning.bay import bands
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT
from builder.planning.bay.supply_tests import run_to, whole_loop
from builder.planning.bay.work import BayWork
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, Link
from builder.planning.circuit.spice_wires import wire_ohm
from builder.planning.circuit.terminal_names import SECOND, ground_of
from builder.planning.power.idle_current import idle_a
from builder.planning.words import UnitKind
from builder.planning.work_pack import BayTest
from builder.units import Volts

FEED = "feed"
"""What ends the id of each of these lines."""
LAMP_A = 0.4
_SMALL: tuple[UnitKind, ...] = ("converter", "driver", "interface")
"""What draws so little that its feed is read with a lamp beside it."""
_OF_THE_CAR: tuple[UnitKind, ...] = ("plug", "fuse_position", "loom")


def small_feeds(circuit: Circuit) -> Iterator[tuple[str, Link, Link]]:
    """Yield each small device of a circuit with its supply and its ground."""
    index = CircuitIndex(circuit)
    grounds = {link.begins: link for link in circuit.links if link.carries == "ground"}
    for link in circuit.links:
        if link.carries == "supply" and link.finishes in index.terminals:
            unit = index.unit_of(link.finishes)
            home = grounds.get(ground_of(unit.id))
            if unit.kind in _SMALL and home is not None:
                yield unit.id, link, home


def feed_tests(work: BayWork, circuit: Circuit) -> Iterator[BayTest]:
    """Yield a line for each small device: volts at its terminals, against the battery's posts."""
    second = work.parts.job.supply.second_battery is not None
    beside = f", beside the {SECOND}'s" if second else ""
    for name, feed, home in small_feeds(circuit):
        lost_v = _lost_v(work, CircuitIndex(circuit), feed, home)
        yield BayTest(
            speakable(name, FEED), "bench",
            f"{name} on, {LOAD_NAMES['lamp_0.4a']} held across its supply and ground: volts "
            f"there{beside}",
            "radio_on_zero", "dc_v", None, None, "V",
            f"less is a bad joint in its feed; its wires may lose {shown(lost_v, 2)} V", None,
            low_from_battery_v=-(lost_v + bands.LAMP_DROP_MAX_V), since=WITH_THE_CIRCUIT,
            probes=(feed.finishes, feed.begins, home.begins, home.finishes), turn="turn_on",
        )  # fmt: skip


def _lost_v(work: BayWork, index: CircuitIndex, feed: Link, home: Link) -> Volts:
    """What wires lose on the way from the battery and back, joints and fuse left out. [V]

    Source: Ohm's law, at the temperature of the house's hot conductor. What the car's own wires
    lose is a house default each.
    """
    own_a = LAMP_A + (index.terminals[feed.finishes].draw_ma or 0.0) / 1000
    wires = [wire for link in (feed, home) for wire in index.wires_of(link) if not wire.stays]
    lost_v = own_a * sum(wire_ohm(wire, work.defaults)[0] for wire in wires)
    if index.unit_of(feed.begins).kind in _OF_THE_CAR:
        lost_v += work.defaults.supply_match_v
    else:
        lost_v += _trunk_v(work, index.unit_of(feed.begins).id)
    if index.unit_of(home.finishes).kind in _OF_THE_CAR:
        lost_v += work.defaults.ground_drop_v
    return lost_v


def _trunk_v(work: BayWork, unit: str) -> Volts:
    """What the run to an amplifier loses at what everything draws with no sound. [V]"""
    run = run_to(work.power, unit)
    if work.power is None or run is None:
        return 0.0
    loop = whole_loop(work.power, run, work.defaults)
    return loop.expected_mohm / 1000 * (idle_a(work.parts) + LAMP_A)

"""A data interface in the circuit: between plug and unit by its own plug, no data wire touched."""

from __future__ import annotations

from builder.model.parts import Interface
from builder.model.plugs import Plug
from builder.model.words import Function
from builder.planning.car.interface_fit import plug_for
from builder.planning.circuit.board import OWN_HOUSING, SLEEVE, Board
from builder.planning.circuit.model import Element, EndId, Link, Terminal
from builder.planning.circuit.terminal_names import ground_of, supply_of
from builder.planning.circuit.work import CircuitWork
from builder.planning.words import LinkClass

_FEEDS: tuple[Function, ...] = ("constant", "constant_sleeps")


def lay_interface(board: Board, work: CircuitWork, name: str) -> EndId:
    """Put an interface of the shelf on, with its supply; return the output that switches."""
    interface = work.parts.shelf.interfaces[name]
    plug = work.parts.vehicle.plug(plug_for(interface, work.parts.vehicle) or "")
    assert plug is not None, "an interface that fits no plug is no turn-on source"
    place = f"plug {plug.id}"
    unit = board.unit(interface.name, "interface", place, interface.id)
    _feed(board, interface, plug, supply_of(unit), _FEEDS, "supply")
    _feed(board, interface, plug, ground_of(unit), ("ground",), "ground")
    draws = work.plan.turn_on.capacity_ma
    return board.terminal(
        Terminal(f"{unit} out", unit, "out", "drives", "control", limits_itself=True, max_ma=draws)
    )


def _feed(
    board: Board, interface: Interface, plug: Plug, terminal: EndId,
    functions: tuple[Function, ...], carries: LinkClass,
) -> None:  # fmt: skip
    """Its own plug takes supply and ground where the car's plug has them; else it says so."""
    pin = next((each for each in plug.pins if each.function in functions), None)
    place, name = f"plug {plug.id}", terminal.removeprefix(f"{interface.name} ")
    takes = Terminal(terminal, interface.name, name, "takes", carries, needed=True)
    board.terminal(takes)
    if pin is None:
        return
    board.unit(place, "plug", place, plug.id)
    cavity = board.terminal(
        Terminal(f"{plug.id}.{pin.cavity}", place, pin.cavity, "passes", carries, wire=pin.wire)
    )
    if carries == "ground":
        joint = board.join(
            "plug_home", place, cavity, terminal, closed_by=OWN_HOUSING, undone="unplug"
        )
        board.link(Link(f"ground of {interface.name}", carries, f"ground of {interface.name}",
                        (terminal, joint, cavity)))  # fmt: skip
        return
    amperes = interface.supply.fuse_a
    fuse = board.element(
        Element(f"fuse of {interface.name}", "fuse", amperes, f"{amperes:g} A", place,
                f"fuse of {interface.name}", carries)
    )  # fmt: skip
    first = board.join(
        "plug_home", place, cavity, fuse.ends[0], closed_by=OWN_HOUSING, undone="unplug"
    )
    last = board.join(
        "element_lead", place, fuse.ends[1], terminal, closed_by=SLEEVE, undone="with_part"
    )
    board.link(Link(f"supply of {interface.name}", carries, f"supply of {interface.name}",
                    (cavity, first, fuse.id, last, terminal)))  # fmt: skip

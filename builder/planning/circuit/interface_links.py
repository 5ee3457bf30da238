"""A data interface in the circuit: between plug and unit by its own plug, no data wire touched."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.parts import Interface
from builder.model.plugs import Plug
from builder.model.words import Function
from builder.planning.car.interface_fit import plug_for
from builder.planning.car.interface_supply import FEEDS, GROUNDS, fed_at
from builder.planning.circuit.board import OWN_HOUSING, SLEEVE, WRAP, Board
from builder.planning.circuit.car_side import plug_terminal
from builder.planning.circuit.model import EndId, Link, Terminal
from builder.planning.circuit.single_wires import lay_fuse
from builder.planning.circuit.terminal_names import ground_of, plug_name, supply_of
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.idle_current import awake_ma
from builder.planning.words import JointKind, LinkClass, UndoneHow


@dataclass(frozen=True, slots=True)
class _Fed:
    """An interface, the car's plug that it goes between, and what is brought to it."""

    interface: Interface
    plug: Plug
    carries: LinkClass


def lay_interface(board: Board, work: CircuitWork, name: str) -> EndId:
    """Put an interface of the shelf on, with its supply; return the output that switches."""
    interface = work.parts.shelf.interfaces[name]
    plug = work.parts.vehicle.plug(plug_for(interface, work.parts.vehicle) or "")
    assert plug is not None, "an interface that fits no plug is no turn-on source"
    place = plug_name(plug)
    unit = board.unit(interface.name, "interface", place, interface.id)
    _feed(board, work, _Fed(interface, plug, "supply"), supply_of(unit), FEEDS)
    _feed(board, work, _Fed(interface, plug, "ground"), ground_of(unit), GROUNDS)
    draws = work.plan.turn_on.capacity_ma
    return board.terminal(
        Terminal(f"{unit} out", unit, "out", "drives", "control", limits_itself=True, max_ma=draws)
    )


def _draws_ma(work: CircuitWork, interface: Interface) -> float:
    """Return what an interface draws at work, with what its output gives. [mA]"""
    return awake_ma(interface) + (work.plan.turn_on.draw_ma or 0.0)


def _feed(
    board: Board, work: CircuitWork, fed: _Fed, terminal: EndId, functions: tuple[Function, ...]
) -> None:
    """By its own plug where the car's plug has the wire, else by a tap at another of the unit."""
    name = terminal.removeprefix(f"{fed.interface.name} ")
    draws = _draws_ma(work, fed.interface) if fed.carries == "supply" else None
    board.terminal(
        Terminal(
            terminal, fed.interface.name, name, "takes", fed.carries, needed=True, draw_ma=draws
        )
    )
    leg = fed_at(work.parts.vehicle, fed.plug, functions)
    if leg is None:
        return
    cavity = plug_terminal(board, leg)
    by_plug = leg.plug is fed.plug
    kind: JointKind = "plug_home" if by_plug else "tap"
    undone: UndoneHow = "unplug" if by_plug else "take_off"
    closed = OWN_HOUSING if by_plug else WRAP
    place, purpose = plug_name(leg.plug), f"{fed.carries} of {fed.interface.name}"
    if fed.carries == "ground":
        joint = board.join(kind, place, cavity, terminal, closed_by=closed, undone=undone)
        board.link(Link(purpose, fed.carries, purpose, (terminal, joint, cavity)))
        return
    amperes = fed.interface.supply.fuse_a
    fuse = lay_fuse(board, f"fuse of {fed.interface.name}", amperes, place, fed.carries)
    first = board.join(kind, place, cavity, fuse.ends[0], closed_by=closed, undone=undone)
    last = board.join(
        "element_lead", place, fuse.ends[1], terminal, closed_by=SLEEVE, undone="with_part"
    )
    board.link(Link(purpose, fed.carries, purpose, (cavity, first, fuse.id, last, terminal)))

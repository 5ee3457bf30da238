"""What switches on: from the car to the converter, from the converter to the amplifiers."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.parts import RemoteIn
from builder.planning.car.pairs import Leg
from builder.planning.circuit.board import IN_TAP, SCREWED, SLEEVE, STAYS_FREE, WRAP, Board
from builder.planning.circuit.car_side import SELF_LIMITING, fuse_position_terminal, plug_terminal
from builder.planning.circuit.cut_ends import beside
from builder.planning.circuit.hold_up import lay_hold_up
from builder.planning.circuit.hook_up import THINNEST_AWG, hook_up, side_by_side
from builder.planning.circuit.interface_links import lay_interface
from builder.planning.circuit.jackets import carrying
from builder.planning.circuit.model import CircuitWire, EndId, Link, OpenEnd, Terminal
from builder.planning.circuit.single_wires import SINGLE_WIRE, Length, lay_fuse
from builder.planning.circuit.terminal_names import (
    DRIVER,
    DRIVER_IN,
    DRIVER_OUT,
    turn_on_input,
    turn_on_of,
    turn_on_output,
)
from builder.planning.circuit.units import (
    amplifier_supply,
    amplifier_unit,
    converter_supply,
    converter_unit,
)
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import awg
from builder.planning.turn_on.loads import WAKES_BY_ITSELF, place_of, turn_on_pin
from builder.planning.words import UndoneHow
from builder.proof.pin_readings import is_logic_level


@dataclass(frozen=True, slots=True)
class _Target:
    """One input to be switched on."""

    terminal: EndId
    unit: str
    place: str
    length: Length


def lay_control(board: Board, work: CircuitWork) -> None:
    """Put every hop of the turn-on chain on."""
    remote_in, remote_out = work.parts.converter.remote_in, work.parts.converter.remote_out
    behind = _followers(board, work)
    from_car = [] if remote_in is None else [_converter_input(board, work, remote_in)]
    from_car += [] if remote_out is not None else behind
    kind = work.plan.turn_on.kind
    if kind not in WAKES_BY_ITSELF and kind != "none" and from_car:
        _from_car(board, work, from_car)
    elif remote_in is not None:
        _leave_input(board, work, from_car[0])
    if remote_out is not None:
        unit = converter_unit(board, work)
        start = board.terminal(
            Terminal(turn_on_output(unit), unit, "turn-on out", "drives", "control",
                     limits_itself=True, max_ma=remote_out.max_ma)
        )  # fmt: skip
        _chain(board, work, start, work.converter_place, behind)


def _converter_input(board: Board, work: CircuitWork, takes: RemoteIn) -> _Target:
    unit = converter_unit(board, work)
    kind = work.plan.turn_on.kind
    terminal = board.terminal(
        Terminal(turn_on_input(unit), unit, "turn-on in", "takes", "control",
                 needed=kind not in WAKES_BY_ITSELF, draw_ma=takes.draw_ma)
    )  # fmt: skip
    return _Target(terminal, unit, work.converter_place, side_by_side(work))


def _followers(board: Board, work: CircuitWork) -> list[_Target]:
    """Every amplifier and what else the turn-on lead switches."""
    found = []
    draws = {name: each.turn_on.draw_ma for name, each in work.parts.amplifiers.items()}
    for name in (*draws, *work.unchosen):
        unit = amplifier_unit(board, work, name)
        terminal = board.terminal(
            Terminal(turn_on_of(unit), unit, "turn-on", "takes", "control",
                     needed=name in draws, draw_ma=draws.get(name))
        )  # fmt: skip
        place, length = work.amplifier_place(name), hook_up(work, name)
        found.append(_Target(terminal, unit, place, length))
    for load in work.parts.job.other_turn_on_loads:
        unit = board.unit(load.name, "turn_on_load", work.converter_place)
        terminal = board.terminal(
            Terminal(turn_on_of(unit), unit, "turn-on", "takes", "control", needed=True,
                     draw_ma=load.draw_ma)
        )  # fmt: skip
        found.append(_Target(terminal, unit, work.converter_place, side_by_side(work)))
    return found


def _from_car(board: Board, work: CircuitWork, targets: list[_Target]) -> None:
    """The car's wire to the first input, through a fuse of its own, and on to the others."""
    source = _source(board, work)
    carrier = carrying(work, ("control", None), 0, "turn-on")
    if carrier is None:
        return
    wire = board.wire(carrier.wire)
    path, end = _fused(board, work, source, _where_tapped(work, carrier.starts_at), wire)
    first = targets[0]
    through, end = _driver(board, work, end)
    ground = _ground_of(board, work, first)
    held, ends = lay_hold_up(board, work, end, ground, first.place, place_of(work.plan.turn_on))
    last = board.join("terminal", first.place, *ends, first.terminal, closed_by=SCREWED,
                      undone="with_part")  # fmt: skip
    purpose = f"turn-on of {first.unit}"
    board.link(Link(purpose, "control", purpose, (*path, *through, *held, last, first.terminal)))
    _chain(board, work, first.terminal, first.place, targets[1:])


def _where_tapped(work: CircuitWork, place: str) -> str:
    """Where the car's wire is joined: in the loom that its plug goes into, else at `place`."""
    plan = work.looms.get(work.plan.turn_on.plug or "")
    return place if plan is None else plan.use.name


def _source(board: Board, work: CircuitWork) -> EndId:
    turn_on = work.plan.turn_on
    if turn_on.interface is not None:
        return lay_interface(board, work, turn_on.interface)
    plug = work.parts.vehicle.plug(turn_on.plug) if turn_on.plug else None
    pin = turn_on_pin(work.parts.vehicle, turn_on)
    assert pin is not None
    if plug is not None:
        plug_terminal(board, Leg(plug, pin))
        return beside(work, Leg(plug, pin))
    position = f"{turn_on.fuse_position}"
    return fuse_position_terminal(board, position, "control", turn_on.capacity_ma)


def _place_of_fuse(work: CircuitWork, place: str) -> str:
    """Where whoever looks for the fuse of the turn-on finds it."""
    positions = {each.position: each.at for each in work.parts.vehicle.fuse_positions}
    return positions.get(place, place)


def _fused(
    board: Board, work: CircuitWork, source: EndId, place: str, wire: CircuitWire
) -> tuple[tuple[str, ...], EndId]:
    """Join the tap, with a fuse of its own unless the source limits itself."""
    if work.plan.turn_on.interface is not None:
        own = board.join("splice", place, source, wire.ends[0], closed_by=SLEEVE,
                         undone="with_part")  # fmt: skip
        return (source, own, wire.id), wire.ends[1]
    undone: UndoneHow = "with_part" if work.plan.turn_on.plug in work.looms else "take_off"
    pin = turn_on_pin(work.parts.vehicle, work.plan.turn_on)
    closing = WRAP if work.plan.turn_on.plug else IN_TAP  # a fuse position is no whole wire
    if pin is not None and pin.function in SELF_LIMITING:
        tap = board.join("tap", place, source, wire.ends[0], closed_by=closing, undone=undone)
        return (source, tap, wire.id), wire.ends[1]
    fuse = lay_fuse(board, f"fuse of the turn-on at {source}", work.defaults.control_fuse_a,
                    _place_of_fuse(work, place), "control")  # fmt: skip
    tap = board.join("tap", place, source, fuse.ends[0], closed_by=closing, undone=undone)
    behind = board.join("element_lead", place, fuse.ends[1], wire.ends[0], closed_by=SLEEVE,
                        undone="with_part")  # fmt: skip
    return (source, tap, fuse.id, behind, wire.id), wire.ends[1]


def _driver(board: Board, work: CircuitWork, end: EndId) -> tuple[tuple[str, ...], EndId]:
    """A logic level does not switch a 12 V input: a driver between them does."""
    pin = turn_on_pin(work.parts.vehicle, work.plan.turn_on)
    if pin is None or not is_logic_level(pin, work.defaults):
        return (), end
    unit = board.unit(DRIVER, "driver", work.converter_place)
    takes = board.terminal(Terminal(DRIVER_IN, unit, "in", "takes", "control", needed=True))
    gives = board.terminal(Terminal(DRIVER_OUT, unit, "out", "drives", "control", needed=True))
    joint = board.join("terminal", work.converter_place, end, takes, closed_by=SCREWED,
                       undone="with_part")  # fmt: skip
    return (joint, takes, gives), gives


def _chain(
    board: Board, work: CircuitWork, start: EndId, place: str, targets: list[_Target]
) -> None:
    """From one terminal to the first target, from that to the next: no terminal holds three."""
    from_unit = board.unit_of(start)
    end, here, node = start, place, f"the turn-on output of {work.converter}"
    for target in targets:
        name = purpose = f"turn-on of {target.unit}"
        said = purpose if target.unit not in work.unchosen else "turn-on"
        wire = board.wire(
            CircuitWire(name, "control", said, SINGLE_WIRE, "single", None,
                        awg(THINNEST_AWG), target.length.m, from_unit, target.unit,
                        piece=name, route_m=target.length.route_m,
                        length_taken=target.length.taken, way=target.length.way)
        )  # fmt: skip
        first = board.join("terminal", here, end, wire.ends[0], closed_by=SCREWED,
                           undone="with_part")  # fmt: skip
        held: tuple[str, ...] = ()
        tail: tuple[EndId, ...] = (wire.ends[1],)
        if end == start:
            ground = _ground_of(board, work, target)
            held, tail = lay_hold_up(board, work, wire.ends[1], ground, target.place, node)
        last = board.join("terminal", target.place, *tail, target.terminal,
                          closed_by=SCREWED, undone="with_part")  # fmt: skip
        board.link(
            Link(purpose, "control", purpose, (end, first, wire.id, *held, last, target.terminal))
        )
        end, here, from_unit = target.terminal, target.place, target.unit


def _ground_of(board: Board, work: CircuitWork, target: _Target) -> EndId:
    """The ground terminal beside an input."""
    amplifiers = (*work.parts.amplifiers, *work.unchosen)
    if target.unit in amplifiers:
        return amplifier_supply(board, work, target.unit)[1]
    if target.unit == work.converter:
        return converter_supply(board, work)[1]
    return amplifier_supply(board, work, amplifiers[0])[1]


def _leave_input(board: Board, work: CircuitWork, target: _Target) -> None:
    because = "the converter wakes by itself; its turn-on input stays free"
    board.leave_open(
        OpenEnd(target.terminal, "converter turn-on input", target.place, because, STAYS_FREE)
    )

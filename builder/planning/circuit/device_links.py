"""Small devices that hang on an amplifier's supply terminals, each behind a fuse of its own."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.circuit.board import SCREWED, SLEEVE, Board
from builder.planning.circuit.hook_up import hook_up_length_m, thin_enough
from builder.planning.circuit.model import CircuitWire, Element, EndId, Link, Terminal
from builder.planning.circuit.terminal_names import DRIVER, ground_of, supply_of
from builder.planning.circuit.units import amplifier_supply, converter_supply
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import Conductor
from builder.planning.words import LinkClass
from builder.units import Amperes, Metres


@dataclass(frozen=True, slots=True)
class _Hung:
    """A device and what it hangs on."""

    name: str
    supply: EndId
    ground: EndId
    fuse_a: Amperes
    on: str  # the amplifier
    place: str
    amplifier_place: str
    size: Conductor
    length_m: Metres


def lay_devices(board: Board, work: CircuitWork, fed: list[str]) -> None:
    """Put the supply of the converter on, and of a turn-on driver where there is one."""
    if not fed:
        return
    own = work.parts.converter.supply
    if own is not None:
        _lay(board, work, _hung(work, work.converter, own.fuse_a, fed[0]))
    if DRIVER in board.units:
        _lay(board, work, _hung(work, DRIVER, work.defaults.control_fuse_a, fed[0]))


def _hung(work: CircuitWork, name: str, fuse_a: Amperes, on: str) -> _Hung:
    return _Hung(
        name, supply_of(name), ground_of(name), fuse_a, on, work.converter_place,
        work.amplifier_place(on), thin_enough(work, fuse_a), hook_up_length_m(work, on),
    )  # fmt: skip


def _terminals(board: Board, work: CircuitWork, hung: _Hung) -> None:
    if hung.name == work.converter:
        converter_supply(board, work)
        return
    board.terminal(Terminal(hung.supply, hung.name, "+12 V", "takes", "supply", needed=True))
    board.terminal(Terminal(hung.ground, hung.name, "GND", "takes", "ground", needed=True))


def _lay(board: Board, work: CircuitWork, hung: _Hung) -> None:
    _terminals(board, work, hung)
    plus, ground = amplifier_supply(board, work, hung.on)
    fuse = board.element(
        Element(f"fuse of {hung.name}", "fuse", hung.fuse_a, f"{hung.fuse_a:g} A",
                hung.amplifier_place, f"fuse of {hung.name}", "supply")
    )  # fmt: skip
    into = _wire(board, hung, f"supply of {hung.name}", hung.on, hung.name)
    first = board.join(
        "terminal", hung.amplifier_place, plus, fuse.ends[0], closed_by=SCREWED, undone="with_part"
    )
    mid = board.join(
        "element_lead", hung.amplifier_place, fuse.ends[1], into.ends[0], closed_by=SLEEVE,
        undone="with_part",
    )  # fmt: skip
    last = board.join(
        "terminal", hung.place, into.ends[1], hung.supply, closed_by=SCREWED, undone="with_part"
    )
    path = (plus, first, fuse.id, mid, into.id, last, hung.supply)
    board.link(Link(into.id, "supply", into.id, path))
    _lay_ground(board, hung, ground)


def _lay_ground(board: Board, hung: _Hung, ground: EndId) -> None:
    home = _wire(board, hung, f"ground of {hung.name}", hung.name, hung.on)
    one = board.join(
        "terminal", hung.place, hung.ground, home.ends[0], closed_by=SCREWED, undone="with_part"
    )
    two = board.join(
        "terminal", hung.amplifier_place, home.ends[1], ground, closed_by=SCREWED,
        undone="with_part",
    )  # fmt: skip
    board.link(Link(home.id, "ground", home.id, (hung.ground, one, home.id, two, ground)))


def _wire(board: Board, hung: _Hung, id: str, from_unit: str, to_unit: str) -> CircuitWire:
    carries: LinkClass = "supply" if from_unit == hung.on else "ground"
    return board.wire(
        CircuitWire(id, carries, id, "single wire", "single",
                    None, hung.size, hung.length_m, from_unit, to_unit, piece=id)
    )  # fmt: skip

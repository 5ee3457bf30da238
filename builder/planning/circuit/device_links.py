"""Small devices that hang on an amplifier's supply terminals, each behind a fuse of its own."""

from __future__ import annotations

from dataclasses import dataclass

from builder.planning.circuit.board import SCREWED, SLEEVE, Board
from builder.planning.circuit.hook_up import hook_up_length_m, thin_enough
from builder.planning.circuit.model import EndId, Link
from builder.planning.circuit.single_wires import lay_fuse, lay_single
from builder.planning.circuit.terminal_names import DRIVER, ground_of, supply_of
from builder.planning.circuit.units import amplifier_supply, converter_supply, driver_supply
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import Conductor
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


def _lay(board: Board, work: CircuitWork, hung: _Hung) -> None:
    if hung.name == work.converter:
        converter_supply(board, work)
    else:
        driver_supply(board)
    plus, ground = amplifier_supply(board, work, hung.on)
    fuse = lay_fuse(board, f"fuse of {hung.name}", hung.fuse_a, hung.amplifier_place)
    into = lay_single(board, f"supply of {hung.name}", "supply", hung.size, hung.length_m, hung.on,
                      hung.name)  # fmt: skip
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
    home = lay_single(board, f"ground of {hung.name}", "ground", hung.size, hung.length_m,
                      hung.name, hung.on)  # fmt: skip
    one = board.join(
        "terminal", hung.place, hung.ground, home.ends[0], closed_by=SCREWED, undone="with_part"
    )
    two = board.join(
        "terminal", hung.amplifier_place, home.ends[1], ground, closed_by=SCREWED,
        undone="with_part",
    )  # fmt: skip
    board.link(Link(home.id, "ground", home.id, (hung.ground, one, home.id, two, ground)))

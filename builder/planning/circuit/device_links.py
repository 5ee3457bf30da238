"""The small devices of a job, each behind a fuse of its own at the place that feeds it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.model.job import AT_RADIO
from builder.planning.car.pairs import Leg
from builder.planning.circuit.board import IN_TAP, SCREWED, SLEEVE, WRAP, Board
from builder.planning.circuit.car_side import fuse_position_terminal, plug_terminal
from builder.planning.circuit.cut_ends import beside, loom_at, place_of, undone_of
from builder.planning.circuit.hook_up import along, hook_up, thin_enough
from builder.planning.circuit.model import EndId, Link
from builder.planning.circuit.single_wires import Length, lay_fuse, lay_single
from builder.planning.circuit.terminal_names import BLOCK_IN, DRIVER, plug_name, supply_wire
from builder.planning.circuit.units import amplifier_supply, converter_supply, driver_supply
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import Conductor
from builder.planning.words import BLOCK, JointKind, UndoneHow
from builder.units import Amperes


@dataclass(frozen=True, slots=True)
class _End:
    """The far end of a device's wire: a terminal, of what, where, how far and how joined."""

    terminal: EndId
    unit: str
    place: str
    length: Length
    kind: JointKind = "terminal"
    closed_by: str = SCREWED
    undone: UndoneHow = "with_part"

    def join(self, board: Board, end: EndId) -> str:
        """Join a wire or a fuse here; return the joint."""
        return board.join(
            self.kind, self.place, self.terminal, end, closed_by=self.closed_by, undone=self.undone
        )


@dataclass(frozen=True, slots=True)
class _Hung:
    """A device with its own supply and ground terminal, and what they hang on."""

    name: str
    supply: EndId
    ground: EndId
    fuse_a: Amperes
    place: str
    size: Conductor
    plus: _End
    minus: _End


def lay_devices(board: Board, work: CircuitWork, fed: list[str]) -> None:
    """Put the supply of the converter on, and of a turn-on driver where there is one."""
    if not fed:
        return
    own = work.parts.converter.supply
    if own is not None:
        ends = _converter_ends(board, work, fed[0])
        terminals = converter_supply(board, work)
        _lay(board, _hung(work, work.converter, terminals, own.fuse_a, ends))
    if DRIVER in board.units:
        ends = _at_amplifier(board, work, fed[0])
        fuse_a = work.defaults.control_fuse_a
        _lay(board, _hung(work, DRIVER, driver_supply(board), fuse_a, ends))


def _hung(
    work: CircuitWork, name: str, terminals: tuple[EndId, EndId], fuse_a: Amperes,
    ends: tuple[_End, _End],
) -> _Hung:  # fmt: skip
    place, size = work.converter_place, thin_enough(work, fuse_a)
    return _Hung(name, *terminals, fuse_a, place, size, *ends)


def _at_amplifier(board: Board, work: CircuitWork, name: str) -> tuple[_End, _End]:
    plus, ground = amplifier_supply(board, work, name)
    place, length = work.amplifier_place(name), hook_up(work, name)
    return _End(plus, name, place, length), _End(ground, name, place, length)


def _converter_ends(board: Board, work: CircuitWork, name: str) -> tuple[_End, _End]:
    """Where the job takes the converter's supply and ground."""
    feed, at_amplifier = work.feed, _at_amplifier(board, work, name)
    far = Length(None) if feed.route is None else along(work, feed.route)
    if feed.at == "block":
        return _End(BLOCK_IN, BLOCK, BLOCK, at_amplifier[0].length), at_amplifier[1]
    if feed.position is not None:
        position = feed.position
        live = fuse_position_terminal(board, position.position, "supply", None)
        at_panel = _tapped(live, position.position, "fuse panel", far)
        return replace(at_panel, closed_by=IN_TAP), at_amplifier[1]
    if feed.plus is not None and feed.ground is not None:
        return _at_plug(board, work, feed.plus, far), _at_plug(board, work, feed.ground, far)
    return at_amplifier


def _at_plug(board: Board, work: CircuitWork, leg: Leg, length: Length) -> _End:
    plug_terminal(board, leg)
    place = AT_RADIO if loom_at(work, leg) is None else place_of(work, leg)
    joined = _tapped(beside(work, leg), plug_name(leg.plug), place, length)
    return replace(joined, undone=undone_of(work, leg, joined.undone))


def _tapped(terminal: EndId, unit: str, place: str, length: Length) -> _End:
    return _End(terminal, unit, place, length, "tap", WRAP, "take_off")


def _lay(board: Board, hung: _Hung) -> None:
    plus = hung.plus
    fuse = lay_fuse(board, f"fuse of {hung.name}", hung.fuse_a, plus.place)
    into = lay_single(board, supply_wire(hung.name), "supply", hung.size, plus.length,
                      plus.unit, hung.name)  # fmt: skip
    first = plus.join(board, fuse.ends[0])
    mid = board.join(
        "element_lead", plus.place, fuse.ends[1], into.ends[0], closed_by=SLEEVE,
        undone="with_part",
    )  # fmt: skip
    last = board.join(
        "terminal", hung.place, into.ends[1], hung.supply, closed_by=SCREWED, undone="with_part"
    )
    path = (plus.terminal, first, fuse.id, mid, into.id, last, hung.supply)
    board.link(Link(into.id, "supply", into.id, path))
    _lay_ground(board, hung)


def _lay_ground(board: Board, hung: _Hung) -> None:
    minus = hung.minus
    home = lay_single(board, f"ground of {hung.name}", "ground", hung.size, minus.length,
                      hung.name, minus.unit)  # fmt: skip
    one = board.join(
        "terminal", hung.place, hung.ground, home.ends[0], closed_by=SCREWED, undone="with_part"
    )
    two = minus.join(board, home.ends[1])
    board.link(Link(home.id, "ground", home.id, (hung.ground, one, home.id, two, minus.terminal)))

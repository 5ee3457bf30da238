"""A second battery in the circuit: its link with a fuse at each end, and its ground."""

from __future__ import annotations

from builder.model.job import SecondBattery
from builder.model.job.batteries import JoinedBy
from builder.planning.circuit.board import ON_POST, SCREWED, Board
from builder.planning.circuit.model import CircuitWire, Element, EndId, Link, Terminal
from builder.planning.circuit.single_wires import Length, lay_fuse, lay_single
from builder.planning.circuit.terminal_names import (
    BATTERY,
    BATTERY_PLUS,
    LEAD_TO_SECOND,
    LINK_FUSE,
    SECOND,
    SECOND_MINUS,
    SECOND_PLUS,
    SIGNS,
    ground_of,
)
from builder.planning.circuit.work import CircuitWork
from builder.planning.power.conductors import Conductor
from builder.planning.power.joiners import JOINERS, powered_joiner
from builder.planning.power.main_fuse import BY_THE_BATTERY
from builder.planning.power.supply_runs import RunChoice
from builder.planning.words import ElementKind
from builder.units import Metres

SHORT_M = 0.3
"""Between a battery's post, its fuse and what joins it. Common practice, no source. [m]"""
THE_LINK = "link to the second battery"
_THROUGH: dict[ElementKind, str] = {"relay": "contacts of the", "charger": "way through the"}
_KINDS: dict[JoinedBy, ElementKind] = {"relay": "relay", "dc_charger": "charger", "diode": "diode"}


def second_plus(board: Board, work: CircuitWork) -> EndId:
    """Put the second battery on; return its positive post."""
    second = work.parts.job.supply.second_battery
    assert second is not None
    board.unit(SECOND, "battery", second.place)
    board.terminal(Terminal(SECOND_MINUS, SECOND, SIGNS[1], "passes", "ground", needed=True))
    return board.terminal(Terminal(SECOND_PLUS, SECOND, SIGNS[0], "drives", "supply", needed=True))


def lay_second_link(board: Board, work: CircuitWork, run: RunChoice, car_plus: EndId) -> None:
    """Post, fuse, lead, what joins, fuse, post: in the order in which current charges it."""
    second = work.parts.job.supply.second_battery
    assert second is not None
    size, fuse_a = run.conductor, run.run.fuse_a
    first = lay_fuse(board, LINK_FUSE, fuse_a, BY_THE_BATTERY)
    last = lay_fuse(board, "fuse of the link at the second battery", fuse_a, second.place)
    kind, name = _KINDS[second.joined_by], JOINERS[second.joined_by]
    through = name if powered_joiner(second) is None else f"{_THROUGH[kind]} {name}"
    joins = board.element(
        Element(through, kind, fuse_a or 0.0, f"{fuse_a or 0:g} A", second.place, name, "supply")
    )  # fmt: skip
    short, rest = _pieces(second.link_m)
    wires = [
        _wire(board, "lead to the fuse of the link", size, short, BATTERY, first.id),
        _wire(board, THE_LINK, size, rest, first.id, name),
        _wire(board, f"lead from the {kind}", size, short, name, last.id),
        _wire(board, LEAD_TO_SECOND, size, short, last.id, SECOND),
    ]
    path: list[str] = [car_plus]
    here, place = car_plus, BATTERY
    for wire, part in zip(wires, [first, joins, last, None], strict=True):
        path.append(_meet(board, place, here, wire.ends[0]))
        path.append(wire.id)
        place = SECOND if part is None else part.place
        if part is None:
            path.append(_meet(board, place, wire.ends[1], SECOND_PLUS))
        else:
            path += [_meet(board, place, wire.ends[1], part.ends[0]), part.id]
            here = part.ends[1]
    board.link(Link(THE_LINK, "supply", THE_LINK, (*path, SECOND_PLUS)))


def joiner_ground(board: Board, second: SecondBattery) -> tuple[str, str, EndId] | None:
    """Put on what joins and works by power of its own; return it, its place and its ground."""
    name = powered_joiner(second)
    if name is None:
        return None
    board.unit(name, "battery_joiner", second.place)
    ground = Terminal(ground_of(name), name, "GND", "takes", "ground", needed=True)
    return name, second.place, board.terminal(ground)


def _pieces(link_m: Metres) -> tuple[Length, Length]:
    """Each of the three short pieces, and the rest: together what was measured from post to post,
    for which the link is sized."""
    short = min(SHORT_M, link_m / 4)
    rest = Length(round(link_m - 3 * short, 3), taken=f"{link_m:g} m as measured, less its ends")
    return Length(short, taken="common practice, beside its fuse"), rest


def _wire(
    board: Board, id: str, size: Conductor, length: Length, from_place: str, to_place: str
) -> CircuitWire:
    return lay_single(board, id, "supply", size, length, from_place, to_place)


def _meet(board: Board, place: str, one: EndId, other: EndId) -> str:
    at_car = BATTERY_PLUS in (one, other)
    return board.join("ring" if place in (BATTERY, SECOND) else "terminal", place, one, other,
                      closed_by=ON_POST if place in (BATTERY, SECOND) else SCREWED,
                      undone="take_off" if at_car else "with_part")  # fmt: skip

"""From the radio's pairs to the converter: tap or cut end, conductor of a jacket, pad, terminal."""

from __future__ import annotations

from builder.model.names import channel_name
from builder.planning.car.pairs import Leg
from builder.planning.car.selection import Tap
from builder.planning.circuit.board import SCREWED, SLEEVE, WRAP, Board
from builder.planning.circuit.car_side import LEG_SIGNS, leg_name
from builder.planning.circuit.cut_ends import (
    beside,
    loom_at,
    place_of,
    radio_end,
    undone_of,
    way_from_radio,
    wire_at,
)
from builder.planning.circuit.jackets import Demand, carrying
from builder.planning.circuit.model import Element, EndId, Link, OpenEnd, Terminal
from builder.planning.circuit.work import CircuitWork
from builder.planning.feeds.input_type import swaps_legs
from builder.planning.levels.fitted_pads import FittedPad


def lay_signals(board: Board, work: CircuitWork) -> None:
    """Put every pair that feeds the converter on, and close off those that feed nothing."""
    for tap in work.selection.taps:
        pad = next((pad for pad in work.pads if pad.channel == tap.pair.channel), None)
        for at, leg in enumerate(tap.pair.legs):
            _lay_leg(board, work, tap, leg, at, pad)
    for tap in work.selection.silent:
        _leave_radio_ends(board, work, tap)


def input_terminal(board: Board, work: CircuitWork, tap: Tap, leg: Leg) -> EndId:
    """Put the converter's terminal for a leg on and return it."""
    parts = work.parts
    unit = board.unit(work.converter, "converter", work.converter_place, parts.converter.id)
    positive = (leg is tap.pair.positive) != swaps_legs(tap.pair, parts.converter)
    name = f"in {tap.converter_input} {'+' if positive else '−'}"
    limits = parts.converter.terminals
    return board.terminal(
        Terminal(
            f"{unit} {name}", unit, name, "takes", "speaker_level", needed=True,
            floating=parts.converter.input.type != "ground_referenced",
            in_ohm=parts.converter.input.impedance_ohm,
            thickest_awg=limits.wire_max_awg if limits else None,
            thinnest_awg=limits.wire_min_awg if limits else None,
        )
    )  # fmt: skip


def _signal(tap: Tap, leg: Leg) -> str:
    return f"{tap.pair.named} signal {LEG_SIGNS[leg.pin.leg or 'positive']}"


def _lay_leg(
    board: Board, work: CircuitWork, tap: Tap, leg: Leg, at: int, pad: FittedPad | None
) -> None:
    cut = tap.treatment == "intercept"
    other = tap.pair.negative if leg is tap.pair.positive else tap.pair.positive
    demand: Demand = ("signal", tap.pair.channel)
    names = _signal(tap, leg), _signal(tap, other)
    carrier = carrying(work, demand, at, *names, bare=leg_name(tap.pair, leg))
    assert carrier is not None, "a job that lacks a conductor for a pair is no tap plan"
    wire = board.wire(carrier.wire)
    where = carrier.starts_at if loom_at(work, leg) is None else place_of(work, leg)
    start = board.join(
        "splice" if cut else "tap", where, radio_end(work, tap, leg), wire.ends[0],
        closed_by=SLEEVE if cut else WRAP,
        undone=undone_of(work, leg, "rejoin" if cut else "take_off"),
    )  # fmt: skip
    terminal = input_terminal(board, work, tap, leg)
    tail = _to_terminal(board, work, wire.ends[1], terminal, _signal(tap, leg), pad)
    head = way_from_radio(board, work, leg) if cut else (beside(work, leg),)
    board.link(
        Link(_signal(tap, leg), "speaker_level", _signal(tap, leg),
             (*head, start, wire.id, *tail, terminal), _signal(tap, other), tap.pair.channel)
    )  # fmt: skip


def _to_terminal(
    board: Board, work: CircuitWork, end: EndId, terminal: EndId, purpose: str,
    pad: FittedPad | None,
) -> tuple[str, ...]:  # fmt: skip
    """Join a conductor's end to a terminal, through its pad where it has one."""
    place = work.converter_place
    if pad is None:
        joint = board.join("terminal", place, end, terminal, closed_by=SCREWED, undone="with_part")
        return (joint,)
    part = board.element(
        Element(f"pad of {purpose}", "resistor", pad.ohm_per_leg, pad.resistor, place,
                f"pad of {channel_name(pad.channel)}", "speaker_level")
    )  # fmt: skip
    first = board.join(
        "element_lead", place, end, part.ends[0], closed_by=SLEEVE, undone="with_part"
    )
    last = board.join(
        "terminal", place, part.ends[1], terminal, closed_by=SCREWED, undone="with_part"
    )
    return (first, part.id, last)


def _leave_radio_ends(board: Board, work: CircuitWork, tap: Tap) -> None:
    for leg in tap.pair.legs:
        board.leave_open(
            OpenEnd(
                radio_end(work, tap, leg),
                f"radio end of {tap.pair.named} {leg.pin.leg} ({wire_at(work, leg, 'unit')})",
                place_of(work, leg),
                "nothing plays this pair any more; the car still drives it",
                SLEEVE,
            )
        )

"""What is fitted beside the links: stand-in loads, the hold-up, and ends that stay open."""

from __future__ import annotations

from builder.planning.circuit.board import SLEEVE, STAYS_FREE, Board
from builder.planning.circuit.cut_ends import place_of, radio_end, undone_of
from builder.planning.circuit.model import Element, EndId, OpenEnd
from builder.planning.circuit.work import CircuitWork
from builder.planning.feeds.open_ends import unused_inputs
from builder.planning.levels.speaker_loads import stand_in_words
from builder.planning.words import UndoneHow


def lay_stand_ins(board: Board, work: CircuitWork) -> None:
    """Put a resistor across the radio end of each broken pair that the radio looks for."""
    for tap in work.selection.broken:
        load = work.stand_ins.get(tap.pair.channel)
        if load is None:
            continue
        place = place_of(work, tap.pair.positive)
        part = board.element(
            Element(f"stand-in of {tap.pair.named}", "resistor", load.ohm, stand_in_words(load),
                    place, f"stand-in load of {tap.pair.named}", "speaker_level")
        )  # fmt: skip
        for leg, end in zip(tap.pair.legs, part.ends, strict=True):
            undone = undone_of(work, leg, "rejoin")
            _across(board, radio_end(work, tap, leg), end, place, undone)


def _across(board: Board, radio: EndId, lead: EndId, place: str, undone: UndoneHow) -> None:
    """A lead goes into the joint at the radio's end; a pair that feeds nothing gets one for it."""
    if not board.add_to_joint(radio, lead):
        board.open_ends = [each for each in board.open_ends if each.end != radio]
        board.join("splice", place, radio, lead, closed_by=SLEEVE, undone=undone)


def lay_open_inputs(board: Board, work: CircuitWork) -> None:
    """Say of every converter input that nothing feeds that it stays open."""
    for end in unused_inputs(work.selection, work.parts.converter):
        board.leave_open(OpenEnd(end.what, end.what, work.converter_place, end.because, STAYS_FREE))

"""What is set on a converter before power: everything of it that the plan relies on, and why."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.names import channel_name
from builder.planning.bay.work import BayWork
from builder.planning.car.selection import LineOutput
from builder.planning.circuit.terminal_names import line_output
from builder.planning.course.model import Said
from builder.planning.feeds.input_type import input_switch
from builder.planning.turn_on.loads import WAKES_BY_ITSELF, place_of

_ADDED = "what it adds decides what each channel plays, and the level after the sum"
_BY_WIRE = "what wakes by itself stays on after its wire is off, and the battery pays for it"


def converter_settings(work: BayWork) -> Iterator[tuple[str, Said]]:
    """Yield each setting with a name of its own: inputs, sums, what wakes it."""
    converter, selection = work.parts.converter, work.selection
    for reason in input_switch(selection, converter):
        yield "inputs", Said(f"{converter.name}: {reason.decision}", (f"why: {reason.because}",))
    outputs = selection.outputs or ()
    if converter.sum != "none" and outputs:
        said = (_plays(converter.name, at, each) for at, each in enumerate(outputs, 1))
        text = f"{converter.name}: set its sums, by switch or link as its maker says"
        yield "sums", Said(text, (*said, f"why: {_ADDED}"))
    wake = _wake(work)
    if wake is not None:
        yield "wake", wake


def _plays(converter: str, at: int, output: LineOutput) -> str:
    """What one output is to play."""
    inputs = " and ".join(f"in {tap.converter_input}" for tap in output.taps)
    heard = " and ".join(map(channel_name, output.channels))
    how = f"{inputs} added" if output.joined and output.taps[1:] else f"{inputs} alone"
    return f"{line_output(converter, at)}: {how} ({heard})"


def _wake(work: BayWork) -> Said | None:
    """What switches it on: nothing else may, or it does not sleep when the plan says so."""
    converter, turn_on = work.parts.converter, work.plan.turn_on
    if turn_on.kind in WAKES_BY_ITSELF:
        return Said(f"no turn-on wire: set {converter.name} to wake by itself")
    ways = [
        *(["the bias of a pair"] if converter.offset_wake_min_v is not None else []),
        *(["sound"] if converter.signal_wake_hold_s is not None else []),
    ]
    if turn_on.kind == "none" or not ways:
        return None
    text = (
        f"{converter.name}: waking by {' and by '.join(ways)} off where that can be set: its "
        "turn-on wire switches it"
    )
    return Said(text, (f"why: {_BY_WIRE}", f"turn-on: {place_of(turn_on)}"))

"""Ends that must be closed off one by one: unused inputs, open ends of broken pairs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.parts import Converter
from builder.planning.car.selection import Selection, Tap
from builder.planning.plan import Insulated, TurnOn

_LIES_OPEN = "open until the new amplifier's wire is joined to it; the radio end stays off it"
_STILL_DRIVEN = "nothing plays this pair any more; the car still drives it"


def list_open_ends(
    selection: Selection, converter: Converter, turn_on: TurnOn
) -> tuple[Insulated, ...]:
    """Return every end that the plan leaves open, and why it must not touch anything."""
    return (
        *_leg_ends("speaker", selection.broken, _LIES_OPEN),
        *_leg_ends("radio", selection.silent, _STILL_DRIVEN),
        *unused_inputs(selection, converter),
        *_unused_turn_on(converter, turn_on),
    )


def _leg_ends(side: str, taps: Iterable[Tap], because: str) -> Iterator[Insulated]:
    """One side of each cut leg of some pairs."""
    for tap in taps:
        for leg in tap.pair.legs:
            what = f"{side} end of {tap.pair.named} {leg.pin.leg} ({leg.wire})"
            yield Insulated(what, leg.plug.id, leg.pin.cavity, because)


def unused_inputs(selection: Selection, converter: Converter) -> list[Insulated]:
    """Return both terminals of every input that nothing feeds."""
    used = {tap.converter_input for tap in selection.taps}
    return [
        Insulated(
            f"converter input {number} {leg}",
            None,
            None,
            "not used; its terminal stays free, with nothing in it",
        )
        for number in range(1, converter.inputs + 1)
        if number not in used
        for leg in ("positive", "negative")
    ]


def _unused_turn_on(converter: Converter, turn_on: TurnOn) -> list[Insulated]:
    if converter.remote_in is None or turn_on.kind not in ("offset_wake", "signal_wake"):
        return []
    because = "the converter wakes by itself; its turn-on input stays free"
    return [Insulated("converter turn-on input", None, None, because)]

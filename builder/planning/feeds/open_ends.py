"""Ends that must be closed off one by one: unused inputs, open ends of broken pairs."""

from __future__ import annotations

from builder.model.parts import Converter
from builder.planning.car.selection import Selection
from builder.planning.plan import Insulated, TurnOn


def list_open_ends(
    selection: Selection, converter: Converter, turn_on: TurnOn
) -> tuple[Insulated, ...]:
    """Return every end that the plan leaves open, and why it must not touch anything."""
    return (
        *_speaker_ends(selection),
        *_silent_ends(selection),
        *unused_inputs(selection, converter),
        *_unused_turn_on(converter, turn_on),
    )


def _speaker_ends(selection: Selection) -> list[Insulated]:
    because = "open until the new amplifier's wire is joined to it; the radio end never goes back"
    return [
        Insulated(
            f"speaker end of {tap.pair.channel} {leg.pin.leg} ({leg.wire})",
            leg.plug.id,
            leg.pin.cavity,
            because,
        )
        for tap in selection.broken
        for leg in tap.pair.legs
    ]


def _silent_ends(selection: Selection) -> list[Insulated]:
    because = "nothing plays this pair any more; the car still drives it"
    return [
        Insulated(
            f"radio end of {tap.pair.channel} {leg.pin.leg} ({leg.wire})",
            leg.plug.id,
            leg.pin.cavity,
            because,
        )
        for tap in selection.silent
        for leg in tap.pair.legs
    ]


def unused_inputs(selection: Selection, converter: Converter) -> list[Insulated]:
    """Return both terminals of every input that nothing feeds."""
    used = {tap.converter_input for tap in selection.taps}
    return [
        Insulated(
            f"converter input {number} {leg}",
            None,
            None,
            "not used; close each conductor off by itself, never twisted together",
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

"""Which line outputs play some pairs, and whether a converter can give them."""

from __future__ import annotations

from builder.model.parts import Converter
from builder.planning.car.output_sums import corners_of
from builder.planning.car.selection import LineOutput, Tap
from builder.planning.objections import Objection, object_to
from builder.planning.tables import DEVICE_RECORD


def outputs_of(
    converter: Converter, taps: tuple[Tap, ...], *, sides: bool
) -> tuple[list[LineOutput], list[Objection]]:
    """Return the outputs that together play some taps: one, or left and right by themselves.

    `sides` says that what hears them adds up a left and a right input.
    """
    if not taps:
        return [], []
    if len(taps) == 1:
        return [LineOutput(taps, joined=False)], []
    if _converter_adds(converter, taps):
        return [LineOutput(taps, joined=True)], []
    corners = corners_of(tap.pair.channel for tap in taps)
    if sides and len(taps) == len(corners) == 2:
        return [LineOutput((tap,), joined=False) for tap in taps], []
    return [LineOutput(taps, joined=True)], [_cannot_add(converter, taps)]


def _converter_adds(converter: Converter, taps: tuple[Tap, ...]) -> bool:
    sides = {tap.pair.side for tap in taps}
    return converter.sum == "any" or (converter.sum == "same_side" and len(sides) == 1)


def _cannot_add(converter: Converter, taps: tuple[Tap, ...]) -> Objection:
    names = " and ".join(tap.pair.named for tap in taps)
    because = (
        f"{names} belong together, and {converter.name} adds no such inputs together: "
        f"{len(taps)} inputs that are summed are needed"
    )
    return object_to("the pairs cannot be joined", because, DEVICE_RECORD)


def in_order(outputs: list[LineOutput]) -> tuple[LineOutput, ...]:
    """Return outputs as they are numbered: by the converter's inputs, sums of several last.

    A converter that adds nothing up gives on output 1 what is on its input 1.
    """
    return tuple(sorted(outputs, key=_place))


def _place(output: LineOutput) -> tuple[bool, list[int]]:
    return len(output.taps) > 1, [tap.converter_input for tap in output.taps]


def too_few_outputs(outputs: tuple[LineOutput, ...], converter: Converter) -> list[Objection]:
    """Return the refusal of a converter with fewer line outputs than the job needs."""
    if len(outputs) <= converter.outputs:
        return []
    because = f"{len(outputs)} line outputs are needed, {converter.name} has {converter.outputs}"
    return [object_to("too few outputs", because, DEVICE_RECORD)]

"""What the inputs that are joined to a line output take from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Amplifier, Converter
from builder.model.parts.amplifier_inputs import Socket
from builder.planning.car.line_feeds import LineFeed
from builder.units import Ohms, require_positive


def input_ohm(amplifier: Amplifier, socket: Socket, defaults: HouseDefaults) -> Ohms:
    """Return what one line input loads a source with: as recorded, else the house default. [Ω]"""
    group = amplifier.inputs_of(socket.channel)
    recorded = group.impedance_ohm if group else None
    return defaults.amplifier_input_ohm if recorded is None else recorded


def loaded_shares(
    converter: Converter,
    leads: Iterable[LineFeed],
    amplifiers: Mapping[str, Amplifier],
    defaults: HouseDefaults,
) -> dict[int, float]:
    """Return what is left of each line output's volts, by its number; none of an unknown one."""
    joined: dict[int, list[Ohms]] = {}
    for lead in leads:
        ohm = input_ohm(amplifiers[lead.amplifier], lead.socket, defaults)
        joined.setdefault(lead.output, []).append(ohm)
    own = converter.output.impedance_ohm
    return {} if own is None else {at: loaded_share(own, ohms) for at, ohms in joined.items()}


def loaded_share(output_ohm: Ohms, inputs_ohm: Iterable[Ohms]) -> float:
    """Return what is left of an output's volts with all its inputs joined: Z/(Z + R).

    Z are the inputs side by side. The loss in decibels is −20·log10 of it.

    Raises:
        ValueError: an input is not positive and finite, or there is none.
    Source: voltage divider.

    >>> round(loaded_share(100.0, [10_000.0, 10_000.0]), 5)
    0.98039
    """
    siemens = sum(1 / require_positive("input_ohm", each) for each in inputs_ohm)
    return 1 / (1 + output_ohm * require_positive("inputs side by side", siemens))

"""Both legs of a pair are biased, and the record does not say bridged.

What it catches
---------------
A radio whose `outputs` are unknown, with a speaker pair in a plug of the radio of which, at volume
zero, both legs read at least 1 V against ground in one visit **(house default)**.

Why it matters in the bay
-------------------------
Two legs that rest at a voltage are what a bridge reads. While the record says unknown, every plan
takes the worst of what a radio may be, and asks again for what the meter has shown already.

Example
-------
Fails::

    radio: {outputs: unknown}
    pins:
      - cavity: 3
        function: speaker
        channel: front-left
        leg: positive
        readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.2, battery_v: 12.4}]
      - cavity: 4
        function: speaker
        channel: front-left
        leg: negative
        readings: [{session: s1, state: radio_on_zero, quantity: dc_v, value: 6.2, battery_v: 12.4}]

Passes::

    radio: {outputs: bridged}

How to mend it
--------------
Type `outputs: bridged` for the radio, when the other pairs read so too.

Source
------
Both outputs of a bridge rest at half the supply: ADI bridge amplifier design note (read).
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN
from builder.rules.house import prints
from builder.rules.pair_readings import Bias, biases_of
from builder.rules.rule import Scope, rule
from builder.rules.wording import called, volts


@prints("biased_leg_min_v")
def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield one fault, at what the record says of the outputs, with the first such pair."""
    if vehicle.radio.outputs != UNKNOWN:
        return
    least_v = shelf.defaults.biased_leg_min_v
    bridged = (bias for bias in biases_of(vehicle) if _of_radio(bias) and bias.low_v >= least_v)
    if (bias := next(bridged, None)) is not None:
        yield Fault(
            ("radio", "outputs"),
            f"nobody said how the radio drives its speakers, and {called(bias.low)} rests at "
            f"{volts(bias.low_v, least_v)}, {called(bias.high)} at {volts(bias.high_v, least_v)}: "
            "both legs of a bridge rest so",
            "type outputs: bridged, when the other pairs read so too",
        )


def _of_radio(bias: Bias) -> bool:
    """Whether a pair is one of speakers that leaves a plug of the radio."""
    return bias.low.plug.unit == "radio" and bias.low.pin.function == "speaker"


RULE = rule("MET128", Severity.NOTE, Scope.VEHICLE, check, not_known=Severity)

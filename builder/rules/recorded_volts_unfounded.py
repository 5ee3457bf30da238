"""Volts of a recorded pair that rest on no meter and no calibration.

What it catches
---------------
A recorded pair with figures in volts, without `meter_v_rms` and with a lead that has no
`calibration`.

Why it matters in the bay
-------------------------
A recording holds shares of full scale. What makes volts of them is a meter that was read at the
pair while 200 Hz played, or the calibration of the lead. Without either nobody can say where the
figure is from, and an input chosen by it is overdriven or stays soft.

Example
-------
Fails::

    pairs: [{channel: front-left, recorded_on: speaker, level_v_rms: {value: 2.5, plus_minus: 0.1}}]

Passes::

    pairs: [{channel: front-left, recorded_on: speaker, meter_v_rms: 2.5,
      level_v_rms: {value: 2.5, plus_minus: 0.1}}]

How to mend it
--------------
Type what the meter read as `meter_v_rms`, if it was written down that day; or how the lead was
calibrated before it, as `calibration` of the recording's lead. Else delete the figures in volts, or
withdraw the visit (`loombook visit withdraw`) and record the pair again with a meter on it. What is
no figure in volts stays true.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.names import channel_name
from builder.model.recorded_sound import RecordedPair
from builder.model.vehicle import Vehicle
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each recorded pair whose volts come from nowhere, at the first of them."""
    for recording in vehicle.recordings:
        if recording.lead.calibration is not None:
            continue
        for pair in recording.pairs:
            key = next(_in_volts(pair), None)
            if key and pair.meter_v_rms is None:
                told = (
                    f"{recording.file} gives volts of {channel_name(pair.channel)}, and neither "
                    f"was a meter read at it nor was {recording.lead.id} calibrated"
                )
                yield Fault((*pair.path, key), told, _HELP)


_HELP = (
    "type what the meter read as meter_v_rms, or the calibration of the lead; if there was "
    "neither, delete the volts"
)


def _in_volts(pair: RecordedPair) -> Iterator[str]:
    """The keys of a pair that hold figures in volts."""
    if pair.level_v_rms is not None:
        yield "level_v_rms"
    if pair.noise_v_rms is not None:
        yield "noise_v_rms"
    if any(each.loud_v_rms is not None for each in pair.volume_steps):
        yield "volume_steps"


RULE = rule("EVD114", Severity.WARN, Scope.VEHICLE, check)

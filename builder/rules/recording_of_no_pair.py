"""A recording of a pair that its vehicle does not describe.

What it catches
---------------
A `channel` of a recorded pair that stands in no entry of the vehicle's `channels`, and a pair that
one recording has twice.

Why it matters in the bay
-------------------------
Nothing of what was recorded counts, or nobody knows which of two channels of the recorder it was.

Example
-------
Fails::

    channels: [{channel: front-left, driven_by: radio, speaker_ohm: 4, band: full}]
    recordings: [{pairs: [{channel: rear-left, recorded_on: speaker}]}]

Passes::

    channels: [{channel: front-left, driven_by: radio, speaker_ohm: 4, band: full}]
    recordings: [{pairs: [{channel: front-left, recorded_on: speaker}]}]

How to mend it
--------------
Describe the pair in the vehicle's record, with band: unknown where nobody knows it; or withdraw the
visit and read the recording again with the right names.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.names import channel_name
from builder.model.vehicle import Vehicle
from builder.model.words import Channel
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each recorded pair that is described nowhere, or recorded twice in one file."""
    described = {each.channel for each in vehicle.channels}
    for recording in vehicle.recordings:
        before = set[Channel]()
        for pair in recording.pairs:
            where, name = (*pair.path, "channel"), channel_name(pair.channel)
            if pair.channel not in described:
                told = f"{recording.file} has {name}, which the vehicle does not describe"
                yield Fault(where, told, f"add {pair.channel} to channels, or record another pair")
            if pair.channel in before:
                told = f"{recording.file} has {name} twice"
                yield Fault(where, told, "name the pair that the channel of the recorder was on")
            before.add(pair.channel)


RULE = rule("EVD112", Severity.FIX, Scope.VEHICLE, check)

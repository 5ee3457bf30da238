"""A recording says otherwise than the record, or than another recording.

What it catches
---------------
A pair whose band, corner, clean level or delay was typed, and whose newest recording tells another:
a level by more than 1 dB, a corner by more than 10 %, a delay by more than 0.05 ms, each beside
what the recording may be wrong by. Of two recordings of a pair the same.

Why it matters in the bay
-------------------------
One of the two is of another car, another setting, another pair or a mistake. Until somebody
decides, nothing that rests on it can be planned.

Example
-------
Fails::

    channels: [{channel: front-left, delay_ms: 0}]
    # a recording: front left comes 0.8 ms after front left woofer

Passes::

    channels: [{channel: front-left, delay_ms: 0.8}]
    # a recording: front left comes 0.8 ms after front left woofer

How to mend it
--------------
Take the reading that the finding names. Speaks it for the recording, delete what was typed: the
recording then fills it. Speaks it against it, withdraw the visit (`loombook visit withdraw`).

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
from builder.proof.recording_disputes import Dispute, disputes_of
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield each key of a pair on which record and recording, or two recordings, differ."""
    for channel in vehicle.channels:
        for each in disputes_of(vehicle, channel):
            yield Fault(each.path, f"{channel_name(channel.channel)}: {_told(each)}", each.deciding)


def _told(dispute: Dispute) -> str:
    return (
        f"{dispute.what} is {dispute.typed} by {dispute.by}, and {dispute.heard} by the recording"
    )


RULE = rule("EVD113", Severity.FIX, Scope.VEHICLE, check)

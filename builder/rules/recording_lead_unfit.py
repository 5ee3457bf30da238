"""A recording that was made with a lead that may do harm.

What it catches
---------------
A recording whose `lead` could ground a leg when a clip slips, has nothing between the recorder's
ground and the pair, leaves too much voltage at the recorder, or bends what is recorded.

Why it matters in the bay
-------------------------
A pair of a bridged radio has no ground: a plain lead joins one leg to the body and can destroy the
radio. And a pair that was recorded with a leg held down sounds otherwise than it does.

Example
-------
Fails::

    lead: {id: plain, clip_ohm: 0, across_ohm: 1000, isolation: none, input: line}

Passes::

    lead: {id: lead-1, clip_ohm: 22000, across_ohm: 1000, isolation: balanced, reference_ohm: 510}

How to mend it
--------------
Never use the lead again. Look whether the radio still plays all its pairs, withdraw the visit
(`loombook visit withdraw`), and record again with a lead as the handbook describes it.

Source
------
Ohm's law at 36 V, the highest that a leg of a raised rail stands at. Limits and supply: common
practice, no source; chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.proof.recording_leads import lead_faults
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle, shelf: Shelf) -> Iterator[Fault]:
    """Yield what is wrong with the lead of each recording."""
    for recording in vehicle.recordings:
        for each in lead_faults(recording.lead):
            told = f"{recording.file} was recorded with {recording.lead.id}: {each.message}"
            yield Fault((*recording.path, "lead", each.key), told, each.help)


RULE = rule("SAF120", Severity.FIX, Scope.VEHICLE, check)

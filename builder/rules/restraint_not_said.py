"""Nobody said whether a restraint part is near the radio.

What it catches
---------------
A removal of the radio without the word `restraint`, or with unknown there, or no removal at all;
the same of a part of `access` that comes off before the radio.

Why it matters in the bay
-------------------------
With no bag, tensioner, lead or plug of one within reach the radio comes out with the battery on,
and readings are taken at once. Otherwise the battery comes off first and the maker's wait passes.
The plan treats what nobody said as near, which costs the wait.

Example
-------
Fails::

    radio: {removal: {steps: [four screws]}}

Passes::

    radio: {removal: {steps: [four screws], restraint: no}}

How to mend it
--------------
Look along the way: yellow plugs and sleeves, a knee bag, a bag behind the glove box. Then type
`restraint: no` or `restraint: yes`.

Source
------
Chosen by this project.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.vehicle import Vehicle
from builder.planning.car.access import radio_parts
from builder.rules.rule import Scope, rule


def check(vehicle: Vehicle) -> Iterator[Fault]:
    """Yield the removal, and each part before it, of which nobody said it."""
    removal = vehicle.radio.removal
    before = [(part.path, f"{part.name} off", part.restraint) for part in radio_parts(vehicle)]
    for path, taken, restraint in (
        (("radio", "removal"), "the radio out", removal.restraint if removal else "unknown"),
        *before,
    ):
        if restraint == "unknown":
            yield Fault(
                path,
                "nobody said whether a restraint part is within reach of who takes "
                f"{taken}: the plan treats it as near",
                "look for yellow plugs and sleeves along the way, then type restraint: no or yes",
            )


RULE = rule("SAF114", Severity.NOTE, Scope.RECORD, check, not_known=Severity)

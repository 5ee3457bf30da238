"""The emergency call would depend on the new amplifier.

What it catches
---------------
Broken pairs in a car with an emergency call, where the call speaks only through them (a stop),
or where nobody knows which speaker it uses (a fix: the plan asks for it first).

Why it matters in the bay
-------------------------
After a crash the added fuse or wire may be gone. The call must reach a speaker that the car
drives by itself.

Example
-------
Fails::

    features: {emergency_call: yes}
    protected_sounds: [{sound: emergency call, channels: [front-left], plays_key_off: yes}]
    treatment: {front-left: intercept, front-right: intercept}

Passes::

    features: {emergency_call: yes}
    protected_sounds: [{sound: emergency call, channels: [front-left], plays_key_off: yes}]
    treatment: {front-left: none, front-right: intercept}

How to mend it
--------------
Leave one of the speakers of the call on the car. Where it is not known, make the test call of
the maker's instructions and listen.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.car.output_sums import corner_of
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import broken_pairs, treatment_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a fault when no speaker of the call is sure to stay on the car."""
    vehicle, broken = parts.vehicle, broken_pairs(parts)
    if not broken or vehicle.features.emergency_call == "no":
        return
    calls = [sound for sound in vehicle.sounds if "emergency" in sound.sound.lower()]
    reached = {*broken, *(corner_of(name) for name in broken)}
    for call in calls:
        if call.channels and reached.issuperset(call.channels):
            through = ", ".join(call.channels)
            yield _fault(parts, f"{call.sound} speaks only through {through}, which is broken")
    if not calls:
        known = "has" if vehicle.features.emergency_call == "yes" else "may have"
        says = f"the car {known} an emergency call, and nobody wrote down which speaker it uses"
        yield _fault(parts, says, Severity.FIX)


def _fault(parts: JobParts, what: str, severity: Severity | None = None) -> Fault:
    return Fault(
        treatment_path(parts.job, broken_pairs(parts)[0]),
        f"{what}: it would depend on the added amplifier, its fuse and its wires",
        "leave a speaker of the call on the car (treatment none or addon)",
        severity,
    )


RULE = rule("TOP114", Severity.STOP, Scope.JOB, check, hazard=True, not_known=(Severity.FIX,))

"""A broken pair on an output that looks for its speaker.

What it catches
---------------
Pairs that are broken on a radio or amplifier with `open_load_check: yes` while nothing takes
the speaker's place, or with `unknown`.

Why it matters in the bay
-------------------------
The output sees an open line and mutes or stores a fault, often only after some minutes, when
the car is outside again.

Example
-------
Fails::

    radio: {open_load_check: unknown}
    treatment: {front-left: intercept}

Passes::

    radio: {open_load_check: no}
    treatment: {front-left: intercept}

How to mend it
--------------
Fit a stand-in resistor across each broken pair at the radio end (47 Ω, 5 W), or use a converter
that has one built in. Where it is unknown: pull one pair, play ten minutes, and write down what
came of it, or accept this finding with what you fitted.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.names import channel_name
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import broken_pairs, treatment_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a stop where stand-ins are missing, a fix where nobody knows whether any are asked."""
    broken = broken_pairs(parts)
    asked = parts.vehicle.radio.open_load_check
    if not broken or asked == "no" or parts.converter.input_load_ohm is not None:
        return
    names = ", ".join(map(channel_name, broken))
    if asked == "unknown":
        yield Fault(
            treatment_path(parts.job, broken[0]),
            f"{names}: broken, and nobody knows whether the output looks for its speaker; it "
            "may mute after some minutes",
            "fit 47 Ω, 5 W across each at the radio end or test it, and accept this with a reason",
            Severity.FIX,
        )
    elif pack.kind == "tap_plan" and _stand_ins(pack) < len(broken):
        yield Fault(
            treatment_path(parts.job, broken[0]),
            f"{names}: broken on an output that looks for its speaker, with {_stand_ins(pack)} "
            f"stand-in resistors on the parts list (at least {len(broken)}): it will mute",
            "fit 47 Ω, 5 W across each pair at the radio end",
        )


def _stand_ins(pack: WorkPack) -> float:
    lines = (line for line in pack.parts if "across each broken pair" in line.note)
    return sum(line.quantity for line in lines)


RULE = rule("TOP112", Severity.STOP, Scope.JOB, check, not_known=(Severity.FIX,))

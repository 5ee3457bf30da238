"""A grounded converter input on a bridged output.

What it catches
---------------
A converter whose negative input is ground (`input.type: ground_referenced`) on pairs that are
bridged, or may be.

Why it matters in the bay
-------------------------
The negative leg of a bridge is driven. Joined to ground, the radio's output stage shorts and
dies.

Example
-------
Fails::

    converter: tsm-2g          # input: {type: ground_referenced}
    speakers: [{name: subwoofer, from: [rear-left]}]   # a bridged pair

Passes::

    converter: cvn-2a          # input: {type: floating}
    speakers: [{name: subwoofer, from: [rear-left]}]

How to mend it
--------------
Use a converter with floating inputs.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import pairs_of, played, use_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair that the converter's ground would short."""
    if parts.converter.input.type != "ground_referenced":
        return
    pairs = pairs_of(parts)
    for name in played(parts.job):
        pair = pairs.get(name)
        if pair is None or pair.topology != "common_ground":
            known = pair is not None and pair.topology == "bridged"
            are = "are driven" if known else "may be driven (nobody measured)"
            yield Fault(
                use_path(parts.job, name),
                f"both legs of {name} {are}, and the negative input of {parts.converter.name} is "
                "ground: it shorts an output and can destroy it",
                "use a converter with floating inputs",
                nobody_knows=not known,
            )


RULE = rule("TOP127", Severity.STOP, Scope.JOB, check, hazard=True, partly=(Severity.STOP,))

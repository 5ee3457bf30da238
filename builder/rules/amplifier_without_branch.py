"""Several amplifiers on one supply lead, and nothing parts it.

What it catches
---------------
A second amplifier that drives a speaker and has no branch under `supply.distribution`: without a
distribution block one lead would end in the terminals of two amplifiers, and with a block there is
no wire to the one that was left out.

Why it matters in the bay
-------------------------
No terminal takes two thick leads. What is then joined on from the first amplifier to the second
is a thinner wire behind a fuse for both: in a short there the wire burns, and the fuse stays whole.

Example
-------
Fails::

    amplifiers: [{name: sub amp, …}, {name: door amp, …}]
    supply: {supply_lead_m: …}

Passes::

    amplifiers: [{name: sub amp, …}, {name: door amp, …}]
    supply:
      supply_lead_m: …
      distribution: {branches: [{amplifier: sub amp, …}, {amplifier: door amp, …}]}

How to mend it
--------------
Measure from the place of a distribution block to each amplifier, and write a branch for each: each
then has its own fuse and its own wire.

Source
------
Common practice, no source. That a conductor that gets thinner needs a fuse of its own: 33 CFR
183.455.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(_pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield the amplifiers that one lead would feed with another."""
    supply = parts.job.supply
    playing = dict.fromkeys(speaker.amplifier for speaker in parts.job.speakers)
    branched = {branch.amplifier for branch in supply.branches}
    left_out = [name for name in playing if name not in branched]
    if len(playing) < 2 or not left_out:
        return
    key = ("distribution", "branches") if supply.branches else ("supply_lead_m",)
    yield Fault(
        (*supply.path, *key),
        f"{len(playing)} amplifiers play, and nothing parts the supply lead for "
        f"{' and '.join(left_out)}: one lead would end in the terminals of several",
        "measure to each amplifier and write a branch for each under supply.distribution",
    )


RULE = rule("PWR115", Severity.FIX, Scope.JOB, check)

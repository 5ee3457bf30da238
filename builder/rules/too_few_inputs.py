"""The converter has fewer inputs than the job needs.

What it catches
---------------
More factory pairs whose sound the job uses than the converter has inputs. A broken pair that no
speaker uses counts too.

Why it matters in the bay
-------------------------
Two days before delivery the fader is dead, or a tweeter is, because there was no input left for
it.

Example
-------
Fails::

    converter: cvn-6s          # six inputs
    speakers:
      - {name: left, from: [front-left-woofer, front-left-tweeter]}
      - {name: right, from: [front-right-woofer, front-right-tweeter]}
      - {name: rear, from: [rear-left, rear-right, sub]}

Passes::

    converter: cvn-6s          # six inputs
    speakers:
      - {name: sub, from: [front-left, front-right]}

How to mend it
--------------
Leave the rears on the car, take the subwoofer from the sum of the fronts, or use a larger
converter or a second one.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import played, use_path
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a fault at the first pair that finds no input."""
    heard = played(parts.job)
    inputs = parts.converter.inputs
    if len(heard) > inputs:
        over = heard[inputs]
        yield Fault(
            use_path(parts.job, over),
            f"{len(heard)} pairs are wanted ({', '.join(heard)}) and {parts.converter.name} has "
            f"{inputs} inputs: {', '.join(heard[inputs:])} would be missing",
            f"leave the rears on the car, or use a converter with {len(heard)} inputs",
        )


RULE = rule("TOP116", Severity.FIX, Scope.JOB, check)

"""Pairs that are added up with opposite polarity.

What it catches
---------------
Two pairs that one speaker plays, one of them `polarity: inverted` in the record, on a converter
input that cannot swap its legs.

Why it matters in the bay
-------------------------
Equal sound cancels: no bass, or a hole where the voices are.

Example
-------
Fails::

    channels:
      - {channel: front-left-woofer, polarity: normal}
      - {channel: front-left-tweeter, polarity: inverted}

Passes::

    channels:
      - {channel: front-left-woofer, polarity: normal}
      - {channel: front-left-tweeter, polarity: normal}

How to mend it
--------------
Use a converter with floating inputs and swap the legs of the inverted pair at its input; the
plan then says so.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.model.names import channel_name
from builder.planning.feeds.input_type import swaps_legs
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import pairs_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each sum of pairs that work against each other."""
    pairs = pairs_of(parts)
    for speaker in parts.job.speakers:
        joined = [pair for name in speaker.plays if (pair := pairs.get(name))]
        turned = [pair for pair in joined if pair.inverted]
        stuck = [pair for pair in turned if not swaps_legs(pair, parts.converter)]
        if stuck and len(turned) < len(joined):
            named = ", ".join(channel_name(pair.channel) for pair in stuck)
            yield Fault(
                (*speaker.path, "from"),
                f"{named} is inverted and the others of "
                f"{speaker.name} are not, and the negative input of {parts.converter.name} is "
                "ground: added up they cancel",
                "use a converter with floating inputs and swap the legs there",
            )


RULE = rule("TOP121", Severity.STOP, Scope.JOB, check)

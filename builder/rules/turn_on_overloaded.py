"""More hangs on a turn-on output than it gives.

What it catches
---------------
The draw of everything on one turn-on output is above what it gives (a stop), or above half of
it (house default, a warning).

Why it matters in the bay
-------------------------
The output of the radio burns, and with it the reason why the car came in. At half load it gets
old early.

Example
-------
Fails::

    turn_on: {output: A.9, capacity_ma: 100, draw_ma: 195}

Passes::

    turn_on: {output: A.9, capacity_ma: 100, draw_ma: 8}    # the converter does the rest

How to mend it
--------------
Let the turn-on output of the converter switch the amplifiers, and a relay with its own supply
what is left.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import share_percent, shown
from builder.findings import Fault, Severity
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield a stop where an output is overdrawn, a warning where it is more than half used."""
    share = parts.shelf.defaults.source_share
    for draw in pack.turn_on_draws:
        if draw.share is None or draw.share <= share:
            continue
        yield Fault(
            ("converter",),
            f"{draw.output} gives {shown(draw.capacity_ma)} mA, and {', '.join(draw.feeds)} draw "
            f"{shown(draw.draw_ma)} mA, {share_percent(draw.share, share)} (at most "
            f"{share_percent(share)})",
            "let the converter's turn-on output, or a relay, switch the rest",
            Severity.STOP if draw.share > 1 else Severity.WARN,
        )


RULE = rule("ONN103", Severity.STOP, Scope.JOB, check, hazard=True)

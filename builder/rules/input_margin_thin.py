"""Little room at the converter's input.

What it catches
---------------
A pair that leaves less than 3 dB (house default) to what the converter takes, its pad counted.
Without a word of the job about it the plan fits the smallest resistor that leaves enough, so
this is found only where the job says `pad: none`, gives ohms that are too few, or where the
input's negative terminal is ground and takes no resistor.

Why it matters in the bay
-------------------------
A bass boost of the radio, or a hot recording, is enough to clip it.

Example
-------
Fails::

    converter: cvn-2a           # input: {max_v_rms: 20}
    pad: none
    channels: [{channel: sub, level: {clean_max_v_rms: 17.3}}]

Passes::

    converter: cvn-2a           # 1.2 kΩ in each leg leaves 3.1 dB
    pad: auto
    channels: [{channel: sub, level: {clean_max_v_rms: 17.3}}]

How to mend it
--------------
Write `pad: auto`, or ohms that are enough. Else hold the volume down by a step and write it on
the customer's sheet.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.findings import Fault, Severity
from builder.planning.levels.padded_levels import takes_pad
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import use_path
from builder.rules.plan_levels import thin_words
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair with less room than the house wants."""
    wanted = parts.shelf.defaults.margin_thin_db
    for level in pack.plan.levels:
        if 0 <= level.converter_margin_db < wanted:
            yield Fault(
                use_path(parts.job, level.channel),
                thin_words(level, parts.converter.name, wanted),
                _help(parts),
            )


def _help(parts: JobParts) -> str:
    if takes_pad(parts.converter):
        return "write `pad: auto`, or limit the volume step"
    return "limit the volume step: an input whose negative terminal is ground takes no pad"


RULE = rule("LVL103", Severity.WARN, Scope.JOB, check)

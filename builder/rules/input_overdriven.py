"""A source louder than the converter takes.

What it catches
---------------
A pair, or a sum of pairs, whose clean maximum is above what the converter's input stands, its
pad counted.

Why it matters in the bay
-------------------------
It clips before half volume, and the input stage takes what it is not made for.

Example
-------
Fails::

    converter: cvn-2a           # input: {max_v_rms: 20}
    pad: none
    channels: [{channel: sub, level: {clean_max_v_rms: 24.5}}]

Passes::

    converter: cvn-6s           # input: {max_v_rms: 40}
    channels: [{channel: sub, level: {clean_max_v_rms: 24.5}}]

How to mend it
--------------
Write `pad: auto`, or use a converter with more input range.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.model.names import channel_name
from builder.planning.levels.line_gain import pad_ratio
from builder.planning.levels.padded_levels import takes_pad
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import use_path
from builder.rules.pack_flags import speaker_path
from builder.rules.plan_levels import over_words
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair that clips the input, and each sum that clips behind it."""
    for level in pack.plan.levels:
        if level.converter_margin_db < 0:
            yield Fault(
                use_path(parts.job, level.channel),
                over_words(level, parts.converter.name),
                _help(parts),
            )
    yield from _sums(pack, parts)


def _help(parts: JobParts) -> str:
    if takes_pad(parts.converter):
        return "write `pad: auto`, or use a converter with more input range"
    return "use a converter with more input range: this one's negative input takes no pad"


def _sums(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    limit = parts.converter.input.after_sum_max_v_rms
    for chain in pack.levels:
        factor = pad_ratio(parts.converter.input.impedance_ohm, chain.pad_ohm_per_leg or 0.0)
        together = chain.source_v_rms * factor * chain.sources_summed
        if limit is not None and chain.sources_summed > 1 and together > limit:
            yield Fault(
                (*speaker_path(parts.job, chain.speaker), "from"),
                f"{' and '.join(map(channel_name, chain.channels))} added up reach "
                f"{shown(together, 1, beside=limit)} V, and "
                f"{parts.converter.name} takes {shown(limit)} V after the sum",
                "take one pair, or a converter with more room after the sum",
            )


RULE = rule("LVL102", Severity.STOP, Scope.JOB, check, hazard=True)

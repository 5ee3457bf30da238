"""A bass source that loses bass as the volume goes up.

What it catches
---------------
A pair that feeds a subwoofer and whose bass table falls by more than 3 dB (house default) over
the volume range. A note where the converter's correction follows the level and gives that much
back. A fixed boost, of a converter, an equaliser or a tone knob, gives nothing of it back.

Why it matters in the bay
-------------------------
At low volume the subwoofer booms, at high volume it is gone. The gain can be set for one of the
two, and so can a fixed boost: right at one volume step, it is wrong by as much at another.

Example
-------
Fails::

    channels:
      - channel: rear-left
        bass_table: [{volume_step: 10, hz: 40, db: 6}, {volume_step: 30, hz: 40, db: -13}]

Passes::

    channels:
      - channel: rear-left
        bass_table: [{volume_step: 10, hz: 40, db: 1}, {volume_step: 30, hz: 40, db: -1}]

How to mend it
--------------
Take another pair, or a converter whose bass correction follows the level.

Source
------
Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.findings import Fault, Severity
from builder.planning.feeds.sub_source import bass_swing_db, correction_db, fixed_words
from builder.planning.work_pack import JobParts, WorkPack
from builder.rules.job_wiring import sound_of
from builder.rules.rule import Scope, rule


def check(pack: WorkPack, parts: JobParts) -> Iterator[Fault]:
    """Yield each pair of a subwoofer that loses too much bass."""
    limit = parts.shelf.defaults.bass_swing_db
    gives = correction_db(parts.converter)
    for speaker in parts.job.speakers:
        for index, name in enumerate(speaker.plays if speaker.channel == "sub" else ()):
            swing = bass_swing_db(sound_of(parts, name))
            if swing > limit:
                back = f"{parts.converter.name} gives back up to {gives:g} dB"
                back += fixed_words(parts.converter)
                yield Fault(
                    (*speaker.path, "from", index),
                    f"the bass of {name} falls by {shown(swing, 1, beside=limit)} dB as the "
                    "volume goes up (at most "
                    f"{shown(limit)} dB): {back}",
                    "take another pair, or a converter whose correction follows the level; an "
                    "equaliser does not mend it",
                    Severity.NOTE if gives >= swing - limit else None,
                )


RULE = rule("TOP122", Severity.FIX, Scope.JOB, check)

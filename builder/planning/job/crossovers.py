"""The passive crossovers of a job in words: between what each stands, and what a channel sees."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.job import Crossover, Job
from builder.model.names import channel_name, crossover_name
from builder.planning.car.selection import Selection
from builder.planning.car.treatments import is_crossed, wires_of
from builder.planning.plan import Reason
from builder.planning.tables import JOB_RECORD


def crossover_words(made: Crossover) -> str:
    """Return what a crossover is, as it would be ordered."""
    return (
        f"parts the bands at {made.corner_hz:g} Hz, {made.slope_db_per_octave} dB/octave, for a "
        f"woofer of {made.woofer_ohm:g} Ω and a tweeter of {made.tweeter_ohm:g} Ω, up to "
        f"{made.rated_w_rms:g} W"
    )


def crossover_reasons(job: Job, selection: Selection) -> Iterator[Reason]:
    """Yield of each crossover where it stands, where it parts the bands, and its load."""
    broken = {tap.pair.channel: tap.pair for tap in selection.broken}
    for speaker in job.speakers:
        made, wires = speaker.crossover, wires_of(speaker, broken)
        if made is None or not is_crossed(speaker, wires):
            continue
        pairs = " and ".join(channel_name(each) for each in wires)
        because = (
            f"between {speaker.amplifier} channel {speaker.channel_name} and the pairs of {pairs}; "
            f"{crossover_words(made)}; the channel sees {speaker.nominal_ohm:g} Ω"
        )
        yield Reason(crossover_name(speaker.channel), because, JOB_RECORD)

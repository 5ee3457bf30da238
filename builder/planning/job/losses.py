"""What the customer loses by the way a job is laid out, in their words."""

from __future__ import annotations

from builder.model.job import Job, JobSpeaker
from builder.model.words import SPLIT_BANDS, Channel
from builder.planning.car.heard_ends import ENDS, only_end
from builder.planning.car.output_sums import corner_of
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import Treatments, sources_of, wires_of
from builder.planning.words import End


def job_losses(job: Job, sources: Sources, treatments: Treatments) -> tuple[str, ...]:
    """Return one sentence for each loss that pairs, inputs and sums bring."""
    said = [
        *(line for speaker in job.speakers for line in _of_speaker(speaker, sources)),
        *_of_fader(job, sources, treatments),
        *_of_line_taps(treatments),
        *_of_ends(sources, treatments),
        *_of_centre(sources, treatments),
    ]
    return tuple(dict.fromkeys(said))


def _of_speaker(speaker: JobSpeaker, sources: Sources) -> list[str]:
    names = sources_of(speaker, sources.pairs)
    ends = {end for end in ENDS for name in names if name.startswith(end)}
    if speaker.channel == "sub" and not wires_of(speaker, sources.pairs):
        return _of_subwoofer(names, ends)
    own_end = next((end for end in ENDS if speaker.channel.startswith(end)), None)
    if own_end is not None and ends and own_end not in ends:
        other = " and ".join(sorted(ends))
        return [
            f"The fader is lost: {speaker.name} plays a copy of the {other}, whatever it is set to."
        ]
    return _missing_band(speaker, names, sources)


def _of_fader(job: Job, sources: Sources, treatments: Treatments) -> list[str]:
    """Where all that plays comes from one end of the car, the other end of the fader is silence."""
    played = {name for speaker in job.speakers for name in sources_of(speaker, sources.pairs)}
    broken = {name for name, how in treatments.of.items() if how == "intercept"}
    end = only_end(sources.pairs, played, broken)
    if end is None:
        return []
    other = ENDS[1 - ENDS.index(end)]
    return [
        f"Turned to the {other}, the fader silences everything: all that plays comes from the "
        f"{end} of the car. The radio's fader stays centred."
    ]


def _of_subwoofer(names: tuple[Channel, ...], ends: set[End]) -> list[str]:
    if names == ("sub",) or not names:
        return []
    losses = []
    if len(ends) == 1:
        losses.append(f"The subwoofer follows the fader with the {ends.pop()} speakers.")
    sides = {side for side in ("left", "right") for name in names if side in name}
    if len(sides) == 1:
        losses.append("Bass that is only on the other side is lost.")
    return losses


def _missing_band(speaker: JobSpeaker, names: tuple[Channel, ...], sources: Sources) -> list[str]:
    """A speaker fed from one band of a corner that has two."""
    losses = []
    for name in names:
        corner = corner_of(name)
        bands = SPLIT_BANDS.get(corner, ())
        for band, partner, what in zip(bands, bands[::-1], ("Treble", "Bass"), strict=False):
            whole = speaker.channel.rpartition("-")[2] != band.rpartition("-")[2]
            lacks = partner in sources.pairs and partner not in names
            if name == band and lacks and whole:
                losses.append(f"{what} of the {corner} is lost to {speaker.name}.")
    return losses


def _of_line_taps(treatments: Treatments) -> list[str]:
    if "line_tap" not in treatments.of.values():
        return []
    return [
        "What the factory amplifier adds by itself, tones of its own and its equaliser, is not "
        "heard from the new speakers: they play what the radio sends."
    ]


def _of_ends(sources: Sources, treatments: Treatments) -> list[str]:
    broken = {
        end for end in ENDS for name, how in treatments.of.items()
        if how == "intercept" and name.startswith(end)
    }  # fmt: skip
    return [
        f"The {end} speakers stay on the car: the fader now weighs two unlike systems."
        for end in ENDS
        if broken and end not in broken and any(name.startswith(end) for name in sources.pairs)
    ]


def _of_centre(sources: Sources, treatments: Treatments) -> list[str]:
    amplified = any(how == "intercept" for how in treatments.of.values())
    if amplified and treatments.of.get("centre") in ("none", "addon") and "centre" in sources.pairs:
        return ["The centre speaker stays on the car, at its old loudness."]
    return []

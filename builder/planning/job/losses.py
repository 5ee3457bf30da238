"""What the customer loses by the way a job is laid out, in their words."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.job import Job, JobSpeaker
from builder.model.words import SPLIT_BANDS, Channel
from builder.planning.car.heard_ends import ENDS, only_end
from builder.planning.car.output_sums import corner_of
from builder.planning.car.sources import Sources
from builder.planning.car.treatments import Treatments, sources_of, wires_of
from builder.planning.words import End


def job_losses(job: Job, sources: Sources, treatments: Treatments) -> tuple[str, ...]:
    """Return one sentence for each loss that pairs, inputs and sums bring."""
    faded = _of_fader(job, sources, treatments)
    said = [
        *faded,
        *(
            line
            for speaker in job.speakers
            for line in _of_speaker(speaker, sources, fades=not faded)
        ),
        *_of_line_taps(treatments),
        *_of_ends(sources, treatments),
        *_of_centre(sources, treatments),
    ]
    return tuple(dict.fromkeys(said))


def _of_speaker(speaker: JobSpeaker, sources: Sources, *, fades: bool) -> list[str]:
    """What is lost at one speaker; `fades` is false where the fader's loss is told as a whole."""
    names = sources_of(speaker, sources.pairs)
    if speaker.channel == "sub" and not wires_of(speaker, sources.pairs):
        return _of_subwoofer(names, fades=fades)
    return [] if _copied_from(speaker, sources) else _missing_band(speaker, names, sources)


def _ends_of(names: Iterable[Channel]) -> set[End]:
    return {end for end in ENDS for name in names if name.startswith(end)}


def _copied_from(speaker: JobSpeaker, sources: Sources) -> str:
    """The end of the car whose sound a speaker of the other end plays; empty for its own."""
    ends = _ends_of(sources_of(speaker, sources.pairs))
    own_end = next((end for end in ENDS if speaker.channel.startswith(end)), None)
    return "" if own_end is None or own_end in ends else " and ".join(sorted(ends))


def _of_fader(job: Job, sources: Sources, treatments: Treatments) -> list[str]:
    """What becomes of the fader, once: which speakers no longer follow it, whether it silences.

    Where all that plays comes from one end of the car, the other end of the fader is silence.
    """
    copies: dict[str, list[str]] = {}
    for speaker in job.speakers:
        if copied := _copied_from(speaker, sources):
            copies.setdefault(copied, []).append(speaker.name)
    said = [
        f"{' and '.join(names)} play{'s' if len(names) == 1 else ''} a copy of the {end}"
        for end, names in copies.items()
    ]
    end = _only_end(job, sources, treatments)
    if end is None:
        return [f"The fader is lost: {each}, whatever it is set to." for each in said]
    said.append(f"turned to the {ENDS[1 - ENDS.index(end)]} it silences everything, since all that "
                f"plays comes from the {end} of the car")  # fmt: skip
    return [f"The fader is lost: {'; '.join(said)}. The radio's fader stays centred."]


def _only_end(job: Job, sources: Sources, treatments: Treatments) -> End | None:
    played = {name for speaker in job.speakers for name in sources_of(speaker, sources.pairs)}
    broken = {name for name, how in treatments.of.items() if how == "intercept"}
    return only_end(sources.pairs, played, broken)


def _of_subwoofer(names: tuple[Channel, ...], *, fades: bool) -> list[str]:
    if names == ("sub",) or not names:
        return []
    losses, ends = [], _ends_of(names)
    if fades and len(ends) == 1:
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

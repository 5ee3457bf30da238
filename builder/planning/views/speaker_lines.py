"""New speakers as parts: one line a driver, whether its coils share a channel or not."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.job import Coils, Job, JobSpeaker
from builder.planning.circuit.coil_links import coil_name


def new_speakers(job: Job) -> Iterator[tuple[str, str]]:
    """Yield the name and the note of each driver that the job brings."""
    drivers: dict[str, list[JobSpeaker]] = {}
    for speaker in job.speakers:
        if not speaker.existing:
            coils = speaker.coils
            drivers.setdefault((coils and coils.driver) or speaker.name, []).append(speaker)
    for name, speakers in drivers.items():
        yield name, "; ".join(_notes(speakers))


def _notes(speakers: list[JobSpeaker]) -> Iterator[str]:
    first = speakers[0]
    watts = sum(each.rated_w_rms for each in speakers)
    yield f"{first.nominal_ohm:g} Ω, {shown(watts)} W"
    if first.coils is not None:
        yield coil_words(first.name, first.coils)
    if first.box is not None:
        yield box_words(first)


def coil_words(speaker: str, coils: Coils) -> str:
    """Return how the coils of a driver are wired."""
    if coils.wired == "separate":
        return f"{coils.number} coils of {coils.ohm:g} Ω, each on a channel of its own"
    names = ", ".join(coil_name(speaker, number + 1) for number in range(coils.number))
    return f"coil {coils.ohm:g} Ω: {names}, in {coils.wired}"


def box_words(speaker: JobSpeaker) -> str:
    """Return the box of a speaker: "vented box, tuned to 34 Hz"; "" where nobody wrote it down."""
    box = speaker.box
    if box is None:
        return ""
    if box.kind == "free_air":
        return "no box, free air"
    if box.kind == "sealed":
        return "sealed box"
    tuned = "its tuning not recorded" if box.tuned_hz is None else f"tuned to {box.tuned_hz:g} Hz"
    return f"vented box, {tuned}"

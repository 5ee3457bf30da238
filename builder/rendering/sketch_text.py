"""What stands before the sheets of a sketched job: what was assumed, and how to write the job."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.job import Job, JobSpeaker
from builder.planning.work_pack import JobParts, WorkPack

ASSUMED = "Assumed, because no job says otherwise: measure before you cut"


def sketch_lines(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    """Yield the assumptions of a sketch, then the command that begins a real job of it."""
    yield ASSUMED
    yield from (f"  {one.decision}: {one.because} ({one.source})" for one in pack.assumed)
    yield ""
    yield "To make it a job, put the places in and answer what it asks (car, lengths):"
    yield from (f"  {line}" for line in _command(parts.job))
    if any(speaker.existing for speaker in parts.job.speakers):
        yield (
            "Then copy the factory speakers that are driven into its record, as in "
            "jobs/TEMPLATE.yaml, and ask for the plan of that job."
        )


def _command(job: Job) -> list[str]:
    """The command in lines that a shell joins; the routes are for a tape to say."""
    words = [
        f"loombook new job --vehicle {job.vehicle} --converter {job.converter}",
        *(f'--amplifier "{each.name}: {each.part}, PLACE"' for each in job.amplifiers),
        *(f'--speaker "{_speaker(each)}"' for each in job.speakers if not each.existing),
        f'--cables "{", ".join(job.cables) or "none"}"',
    ]
    return [f"{word} \\" for word in words[:-1]] + words[-1:]


def _speaker(speaker: JobSpeaker) -> str:
    plays = " ".join(speaker.plays)
    return (
        f"{speaker.name}: {speaker.channel}, {speaker.nominal_ohm:g} ohm, "
        f"{speaker.rated_w_rms:g} w, {speaker.amplifier} {speaker.amplifier_channel}, "
        f"from {plays}, lead METRES"
    )

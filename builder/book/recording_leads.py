"""The recording leads of a book's settings: which of them must not be used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.findings import CatalogueEntry, Fault, Severity
from builder.model.recording_lead import RecordingLead
from builder.proof.recording_leads import lead_faults

LEAD_UNFIT = CatalogueEntry(
    id="BOK130",
    slug="lead-unfit",
    title="A recording lead of the settings that may do harm",
    severity=Severity.WARN,
    what="An entry of `recording_leads` that could ground a leg, that leaves too much voltage at "
    "the recorder, or that bends what is recorded; or two entries of one id. `loombook sound read "
    "--visit` refuses to record with it.",
    why="A pair of a bridged radio has no ground. A plain lead to a recorder joins one leg to the "
    "body and can destroy the radio.",
    example="recording_leads:\n  - {id: plain, clip_ohm: 0, across_ohm: 1000, isolation: none, "
    "input: line, recorder_supply: car}   # 22000 in each clip, a transformer, its own battery",
    fix="Build the lead as the handbook says on Measure the sound, and type what it then is.",
)


def unfit_leads(leads: Iterable[RecordingLead]) -> Iterator[Fault]:
    """Yield what is wrong with the leads of a book, at paths of its settings."""
    known = set[str]()
    for at, lead in enumerate(leads):
        path = ("recording_leads", at)
        if lead.id in known:
            yield Fault((*path, "id"), f'two leads are called "{lead.id}"', "type another id")
        known.add(lead.id)
        for each in lead_faults(lead):
            yield Fault((*path, each.key), f"{lead.id}: {each.message}", each.help)

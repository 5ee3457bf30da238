"""`sound read --visit`: what a recording told becomes a part of a visit, tried first."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from functools import partial
from pathlib import Path
from typing import Any

from builder.book import Book, RecordFile
from builder.declaring import fields_of
from builder.editing import insert_item
from builder.model.recording_lead import RecordingLead
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit
from builder.model.words import CHANNELS, Channel, MadeBy, RecordedOn
from builder.pipeline.changing.sound_data import RecordingSaid, recording_data
from builder.pipeline.changing.visit_edits import (
    CannotEditVisitError,
    EditedVisit,
    open_visit,
    tried_edit,
    vehicle_of,
)
from builder.proof.recording_leads import lead_faults
from builder.sound.reading import SoundFacts
from builder.speller import nearest


@dataclass(frozen=True, slots=True)
class ForVisit:
    """What was typed beside a recording that is for a visit.

    `pairs` are names of pairs by channel of the recorder; `steps` the numbers that the radio showed
    at the steps of the track.
    """

    visit: Path
    pairs: Mapping[int, str]
    recorded_on: RecordedOn
    lead: str
    steps: tuple[int, ...]
    at_volume_step: int | None
    set_to: str
    made_by: MadeBy


@dataclass(frozen=True, slots=True)
class MeantVisit:
    """A visit that may get a recording: its file, itself, its car, and the lead."""

    file: RecordFile
    visit: Visit
    car: Vehicle
    lead: RecordingLead


def meant_visit(
    book: Book, asked: ForVisit, content: bytes, channels: int, steps: int
) -> MeantVisit:
    """Return the visit and lead that are meant, before the recording is read: that takes long.

    Args:
        book: The book.
        asked: What was typed.
        content: The bytes of the recording.
        channels: How many channels it has.
        steps: How many steps its track has.

    Raises:
        CannotEditVisitError: one of the names leads nowhere, the lead must not be used, or the
            visit has this recording already.
    """
    lead = usable_lead(book, asked.lead)
    file, visit = open_visit(book, asked.visit)
    known = next((one for one in visit.recordings if one.sha256 == sum_of(content)), None)
    if known is not None:
        raise CannotEditVisitError(f"{file.shown} has this recording already, as {known.file}")
    _, car = vehicle_of(book, visit)
    for number in range(1, channels + 1):
        if number not in asked.pairs:
            raise CannotEditVisitError(
                f"which pair is on channel {number}? type --pair {number}=front-left"
            )
    for number, name in asked.pairs.items():
        _named(car, number, name, channels)
    if len(set(asked.pairs.values())) < len(asked.pairs):
        raise CannotEditVisitError("one pair is given for two channels: each has its own")
    if len(asked.steps) != steps or sorted(set(asked.steps)) != [*asked.steps]:
        raise CannotEditVisitError(
            f"the track has {steps} volume steps: type --volume {steps} times, with the number "
            "that the radio showed at each, growing"
        )
    return MeantVisit(file, visit, car, lead)


def sum_of(content: bytes) -> str:
    """Return the sum of a recording's file."""
    return hashlib.sha256(content).hexdigest()


def usable_lead(book: Book, name: str) -> RecordingLead:
    """Return a lead of the settings that may be used.

    Raises:
        CannotEditVisitError: there is none of this id, or it may do harm.
    """
    known = {lead.id: lead for lead in book.leads}
    if name not in known:
        near = nearest(name, known)
        more = f"did you mean {near}?" if near else f"there are: {', '.join(known) or 'none'}"
        raise CannotEditVisitError(f'recording_leads of book.yaml has no "{name}"; {more}')
    for fault in lead_faults(known[name]):
        raise CannotEditVisitError(f"{name}: {fault.message}; {fault.help}")
    return known[name]


def _named(car: Vehicle, number: int, name: str, channels: int) -> None:
    described = [each.channel for each in car.channels]
    if number > channels:
        raise CannotEditVisitError(f"--pair {number}={name}: there is no channel {number}")
    if name not in described:
        near = nearest(name, described)
        more = f"did you mean {near}?" if near else f"it describes {', '.join(described) or 'none'}"
        raise CannotEditVisitError(f'{car.id} describes no pair "{name}"; {more}')


def with_recording(
    book: Book,
    asked: ForVisit,
    meant: MeantVisit,
    content: tuple[str, bytes],
    meter_v_rms: tuple[float | None, ...],
    freed: bool,
    facts: SoundFacts,
) -> EditedVisit:
    """Return the visit with what a recording told; nothing is written.

    `content` are name and bytes of the recording.

    Raises:
        CannotEditVisitError: no level of it can be trusted, or the visit's text takes none.
    """
    said = _said(asked, meant, content, meter_v_rms, freed)
    spoilt = next((pair for pair in facts.pairs if pair.gain_moved), None)
    if spoilt is not None:
        raise CannotEditVisitError(
            f"no level of channel {spoilt.channel} can be trusted, so nothing of it goes into the "
            f"book: {spoilt.gain_moved}"
        )
    add = partial(insert_item, path=("recordings",), item=recording_data(facts, said), kind="visit")
    return tried_edit(book, meant.file, meant.visit, add)


def _said(
    asked: ForVisit,
    meant: MeantVisit,
    content: tuple[str, bytes],
    meter_v_rms: tuple[float | None, ...],
    freed: bool,
) -> RecordingSaid:
    known: dict[str, Channel] = {name: name for name in CHANNELS}
    channels = tuple(
        (known[asked.pairs[number]], asked.recorded_on) for number in sorted(asked.pairs)
    )
    return RecordingSaid(
        meant.visit.sessions[0].id,
        content[0],
        sum_of(content[1]),
        asked.made_by,
        freed,
        channels,
        meter_v_rms,
        asked.steps,
        asked.at_volume_step,
        asked.set_to,
        lead_data(meant.lead),
    )


def lead_data(lead: RecordingLead) -> dict[str, Any]:
    """Return a lead as plain data, without what nobody said of it."""
    keys = {each.attribute for each in fields_of(RecordingLead)}
    return {key: value for key, value in asdict(lead).items() if key in keys and value is not None}

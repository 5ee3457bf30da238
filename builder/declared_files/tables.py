"""The tables of schema/README.md that tell the keys of the declared kinds."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from builder.declaring import rules_of, schema_of
from builder.model.access import AccessPart, Passage
from builder.model.job import CablePass, JobSpeaker, JobSupply, Result, Route, TurnOnLoad
from builder.model.kinds import DECLARED
from builder.model.locked_books import BookLock, LockedBook
from builder.model.old_note import OldNote
from builder.model.parts.interface import InterfaceNeeds, InterfaceOutput
from builder.model.parts.loom import Branch, LoomEnd, RingOut
from builder.model.parts.loom_wires import LoomWire, Splice
from builder.model.plugs import Claim, Pin, Plug, Reading, Session
from builder.model.recorded_sound import RecordedBetween, RecordedPair, RecordedSound
from builder.model.recording_lead import RecordingLead
from builder.model.settings import BookSettings
from builder.model.sound import SpeakerChannel
from builder.model.vehicle import Acceptance, Resolution, Scope
from builder.model.visit import Turned, VisitPlace

_HEAD = ("| key | must | what |", "|---|---|---|")

_PARTS: dict[str, type] = {
    "A borrowed book": LockedBook,
    "Scope": Scope,
    "What comes off": AccessPart,
    "Ways through a bulkhead": Passage,
    "Speaker channels": SpeakerChannel,
    "Visits": Session,
    "Plugs": Plug,
    "Pins": Pin,
    "Readings": Reading,
    "Claims": Claim,
    "Old notes": OldNote,
    "Accepted findings": Acceptance,
    "Settled disputes": Resolution,
    "Speakers of a job": JobSpeaker,
    "Routes of a job": Route,
    "Cables through a bulkhead": CablePass,
    "Supply of a job": JobSupply,
    "Other turn-on loads of a job": TurnOnLoad,
    "Results of a job": Result,
    "Ends of a loom": LoomEnd,
    "Branches of a loom": Branch,
    "Wires of a loom": LoomWire,
    "Splices of a loom": Splice,
    "Ring-out of a loom": RingOut,
    "Outputs of an interface": InterfaceOutput,
    "Needs of an interface": InterfaceNeeds,
    "Places of a visit": VisitPlace,
    "Turned visits": Turned,
    "Recordings": RecordedSound,
    "Recorded pairs": RecordedPair,
    "Two recorded pairs": RecordedBetween,
    "Recording leads": RecordingLead,
}
"""Parts of a record that have a table of their own, by its title."""


def readme_file(text: str) -> str:
    """Return the README with the tables of all declared kinds and parts as they are declared."""
    kinds = {cls.__name__: cls for cls in DECLARED.values()} | {
        "Book": BookSettings,
        "Books of others": BookLock,
    }
    for title, cls in (kinds | _PARTS).items():
        pattern = rf"(\n##+ {title}\n(?:(?!#|\|).*\n)*)(?:\|.*\n)+(?:\n(?:- .*\n)+)?"
        text, found = re.subn(pattern, lambda at, cls=cls: at[1] + table_of(cls), text)  # type: ignore[misc]
        assert found == 1, f"no table of {title}"
    return text


def table_of(cls: type) -> str:
    """The keys of a record class as a table, and its conditions as a list."""
    conditions = [f"- {rule.schema['because']}" for rule in rules_of(cls)]
    lines = [*_HEAD, *_rows(schema_of(cls)), *(["", *conditions] if conditions else [])]
    return "\n".join(lines) + "\n"


def _rows(schema: dict[str, Any]) -> Iterator[str]:
    for key, said in schema["properties"].items():
        must = "yes" if key in schema.get("required", ()) else "no"
        yield f"| `{key}` | {must} | {said['description']} |"

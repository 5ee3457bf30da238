"""A vehicle record: one scope, with everything that was found in the car."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Final

from builder.declaring import listed, part, record, text
from builder.model.access import AccessPart, Fastener, Passage, Removal
from builder.model.car import (
    Battery,
    FactoryAmplifier,
    Features,
    Power,
    Radio,
    Safety,
)
from builder.model.forms import DATE, ID, LINE
from builder.model.photo_file import PhotoFile
from builder.model.plugs import FaceRefusal, FusePosition, Plug, Session
from builder.model.recorded import OWN_ID, Recorded
from builder.model.recorded_sound import RecordedSound
from builder.model.scope import Answer, Question, Scope
from builder.model.settled import Acceptance, Photo, Resolution
from builder.model.sound import ProtectedSound, SpeakerChannel, Unheard
from builder.model.visit import Visit
from builder.model.words import UNKNOWN, Channel

__all__ = [
    "Acceptance",
    "AccessPart",
    "Answer",
    "Battery",
    "FactoryAmplifier",
    "Fastener",
    "Features",
    "Passage",
    "Power",
    "Question",
    "Radio",
    "Removal",
    "Resolution",
    "Safety",
    "Scope",
    "Vehicle",
]

VISITS: Final = "visits"
NOBODY_REGISTERED: Final = ""
"""What handles count as that nobody registered: all of them are one contributor."""


@record
class Vehicle(Recorded):
    """A vehicle record: one scope of cars, its plugs, its pins and what was measured on them."""

    id: str = text(OWN_ID, "sample-base", "template-sample", form=ID)
    make: str = text(
        "The make.", "Example", form=LINE, ask="Make",
        column=("make", "maker", "manufacturer"),
    )  # fmt: skip
    model: str = text("The model.", "Sample", form=LINE, ask="Model")
    variant: str = text(
        "How a person tells this scope from its sisters.", "hatch, base", form=LINE,
        ask="Which of its sisters, in words, like hatch, base",
        column=("variant", "version"),
    )  # fmt: skip
    generation: str | None = text(
        "The generation, when people speak of one.", "second", form=LINE, default=None,
        ask="Generation", answer="",
        label="Generation", absent="",
    )  # fmt: skip
    scope: Scope = part(
        {"year_from": 2016, "year_to": 2019, "bodies": ["hatch"], "markets": ["all"],
        "drive_side": "left", "trims": ["base"], "options_any": [], "options_none": [],
        "radios": ["kr-210"]},
        column=("",),
    )  # fmt: skip
    how_to_tell: tuple[Question, ...] = listed(
        "How somebody tells this scope from its sisters; [] when no other record could be the same "
        "car.", [], most=20,
        item=part({"question": "Is there a finned box behind the left luggage trim?",
        "cost": "panel", "answers": [{"answer": "no", "means": "this"}, {"answer": "yes",
        "means": "sample-amplified"}]}),
    )  # fmt: skip
    radio: Radio = part({"outputs": "bridged", "open_load_check": "unknown", "data_wake": "no"})
    factory_amplifier: FactoryAmplifier = part({"feed": "none"})
    features: Features = part(
        {"start_stop": "no", "hybrid": "no", "noise_cancellation": "no", "engine_sound": "no",
        "emergency_call": "unknown"},
        column=("",),
    )  # fmt: skip
    protected_sounds: tuple[ProtectedSound | Unheard, ...] = listed(
        "The sounds that must still be heard after the work; [] when you checked and there are "
        "none, [unknown] when nobody did, or unknown beside those that are known.", [], most=20,
        item=part({"sound": "lights-left-on warning", "channels": ["front-left"],
        "plays_key_off": "yes"}, means={"unknown": "Nobody has listened for all of them."}),
        ask="Sounds that must still be heard, like seat-belt chime: front-left; none if you "
        "looked and there are none, unknown if nobody did", answer="unknown", lines=True,
        settles="a walk round the car with who drives it: lights left on, door open, belt, parking",
    )  # fmt: skip
    power: Power = part(
        {"battery": {"location": "engine bay", "sensor_on_negative": "no"}},
        column=("",),
    )  # fmt: skip
    safety: Safety = part(
        {"restraint_zones": [], "high_voltage_zones": [], "restraint_wait_min": "unknown"},
        column=("",),
    )  # fmt: skip
    access: tuple[AccessPart, ...] = listed(
        "The parts that come off so that a place can be reached, and what each uncovers.", [],
        most=60, item=part({"name": "trim ring", "kind": "panel", "uncovers": ["radio"],
        "steps": ["prise it off from below"], "restraint": "no", "minutes": None}), default=(),
        ask="One part that comes off a line: trim ring: panel, uncovers radio", answer="",
        lines=True,
    )  # fmt: skip
    passages: tuple[Passage, ...] = listed(
        "The ways through a bulkhead that a cable can take.", [], most=20,
        item=part({"name": "main grommet", "where": "left of the brake booster",
        "between": ["engine bay", "driver's footwell"], "grommet": "own", "free_mm": None}),
        default=(),
        ask="One way through a bulkhead a line: main grommet: own, left of the brake booster, "
        "engine bay > driver's footwell", answer="", lines=True,
    )  # fmt: skip
    fuse_positions: tuple[FusePosition, ...] = listed(
        "The fuse-panel positions that could feed a turn-on lead.", [{"position": "F14",
        "panel": "cabin", "label": "rear accessory", "function": "accessory"}], most=60,
        item=part({"position": "F14", "panel": "cabin", "label": "rear accessory",
        "function": "accessory", "rating_a": None}), default=(),
    )  # fmt: skip
    channels: tuple[SpeakerChannel, ...] = listed(
        "What each speaker pair carries: one entry for each channel named by a pin.",
        [{"channel": "front-left", "driven_by": "radio", "band": "full"}], most=14,
        item=part({"channel": "front-left", "driven_by": "radio", "speaker_ohm": None,
        "band": "full"}),
    )  # fmt: skip
    sessions: tuple[Session, ...] = listed(
        "Who measured, when, on which car; each reading names its visit.", [], most=200,
        item=part({"id": "s1", "by": "alder-pit-audio", "date": "2024-05-13",
        "car": {"tag": "k7m2"}, "method": "meter", "read_from": "wire_side",
        "against": "battery_negative"}),
    )  # fmt: skip
    recordings: tuple[RecordedSound, ...] = listed(
        "What recordings of the test track told of the pairs; as a rule they stand in visits.",
        [], most=200, default=(),
        item=part({"session": "s1", "file": "front.wav", "made_by": "recorder",
        "pairs": [{"channel": "front-left", "recorded_on": "speaker"}]}),
    )  # fmt: skip
    plugs: tuple[Plug, ...] = listed(
        "The plugs.", [{"id": "A", "name": "main plug", "unit": "radio", "location": "behind the "
        "radio", "housing": "template-housing", "shell_colours": ["grey"], "read_from": "wire_side",
        "pins": []}], least=1, most=30,
        ask="One plug a line: A two-row-20-latch-top grey wire_side behind the radio",
        option="plug", lines=True,
    )  # fmt: skip
    accept: tuple[Acceptance, ...] = listed(
        "Findings that you have seen and mean to leave; each must match something.", [], most=50,
        item=part({"rule": "PIN111", "at": "A.4", "reason": "two white wires in this plug and no "
        "way round it", "who": "alder-pit-audio"}), default=(),
        label="Accepted", absent="",
    )  # fmt: skip
    resolutions: tuple[Resolution, ...] = listed(
        "How disputes about pins were settled; what lost stays in the record and weighs nothing.",
        [], most=50, item=part({"pin": "A.4", "by": "alder-pit-audio", "date": "2024-06-01",
        "deciding": "12.6 V after 70 minutes locked, with both of us watching",
        "retires": ["harbour-sound"]}), default=(),
    )  # fmt: skip
    photos: tuple[Photo, ...] = listed(
        "The photos that lie beside the record; loombook mend takes out of them what tells place, "
        "time and device.", [], most=60, item=part({"file": "radio-a.jpg", "shows": "plug A from "
        "the wire side", "plug": "A", "by": "alder-pit-audio", "licence": "CC0-1.0",
        "consent": "yes"}), default=(),
        label="Photos", absent="",
    )  # fmt: skip
    edited: str | None = text(
        "The day the record was last worked on, as YYYY-MM-DD.", "2024-05-14", form=DATE,
        default=None,
        ask="Day of writing, YYYY-MM-DD", answer="",
        label="Last worked on", absent="",
    )  # fmt: skip
    face_refusals: tuple[FaceRefusal, ...] = ()  # made by `proof.faces.turning`, never typed
    counts_as: Mapping[str, str] = field(default_factory=dict)  # made by `proof.contributors`
    photo_files: Mapping[str, PhotoFile] = field(default_factory=dict)  # as they lie there, by name
    visits: tuple[Visit, ...] = ()  # in files of their own, withdrawn ones too: `proof.visits`

    def plug(self, plug_id: str) -> Plug | None:
        """The plug with this id, or None."""
        return next((plug for plug in self.plugs if plug.id == plug_id), None)

    def session(self, session_id: str) -> Session | None:
        """The session with this id, or None."""
        return next((s for s in self.sessions if s.id == session_id), None)

    def channel(self, name: Channel) -> SpeakerChannel | None:
        """What the pair `name` carries, or None when the record does not say."""
        return next((c for c in self.channels if c.channel == name), None)

    @property
    def handles(self) -> frozenset[str]:
        """The handles of everybody whose readings or claims stand in the record."""
        claimed = {c.by for plug in self.plugs for pin in plug.pins for c in pin.claims}
        return frozenset(claimed | {session.by for session in self.sessions})

    def contributor(self, handle: str) -> str:
        """The contributor that a handle counts as; of a record that no book counts, itself."""
        return self.counts_as.get(handle, handle)

    @property
    def sounds(self) -> tuple[ProtectedSound, ...]:
        """The sounds that somebody named; whether they are all says `sounds_known`."""
        return tuple(sound for sound in self.protected_sounds if sound != UNKNOWN)

    @property
    def sounds_known(self) -> bool:
        """Whether somebody listened for every sound that must still be heard."""
        return UNKNOWN not in self.protected_sounds

    @property
    def title(self) -> str:
        """Make, model, years and variant, as a person would say them."""
        scope = self.scope
        years = (
            str(scope.year_from)
            if scope.year_from == scope.year_to
            else f"{scope.year_from}–{scope.year_to}"
        )
        return f"{self.make} {self.model} {years}, {self.variant}"

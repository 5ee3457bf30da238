"""A job as its record says it."""

from __future__ import annotations

from typing import Literal, TypeAlias

from builder.declaring import figure, listed, part, record, text, word
from builder.findings import DataPath
from builder.model.forms import DATE, ID, LINE, SENTENCE
from builder.model.job.begun import Begun
from builder.model.job.car import JobCar
from builder.model.job.evidence import BayNote, FollowUp, JobAcceptance, Result, StepTick
from builder.model.job.lines import JobSwitch, LineLead
from builder.model.job.looms import JobLoom
from builder.model.job.places import CablePass, Hole, Mount
from builder.model.job.routes import Route
from builder.model.job.speakers import JobSpeaker
from builder.model.job.supply import JobSupply, TurnOnLoad
from builder.model.job.treatments import Treatments
from builder.model.recorded import OWN_ID, Recorded
from builder.model.words import Channel, ConverterSupply, Treatment

PadWish: TypeAlias = Literal["auto", "none"] | float
"""Whether a source too loud for its input gets a resistor in each leg: as the plan finds it
needed, never, or one of so many ohms in every pair."""


@record
class JobAmplifier:
    """An amplifier of the job."""

    name: str = text("What this job calls it.", "amp 1", form=LINE)
    part: str = text("The amplifier record.", "zea-4-example", form=ID)
    place: str = text(
        "Where it sits.", "left luggage side", form=LINE,
        sketch="not decided",
    )  # fmt: skip
    switches: tuple[JobSwitch, ...] = listed(
        "How the switches beside its inputs are set; one that is not named stands on own.", [],
        [{"group": "input 5", "does": "sums", "of": ["inputs 1/2"]}], most=16, default=(),
        label="switches", absent="",
    )  # fmt: skip
    path: DataPath = ()

    def switch(self, group: str) -> JobSwitch | None:
        """The switch beside a group of inputs, where it is set to anything but own."""
        found = (each for each in self.switches if each.group == group and each.does != "own")
        return next(found, None)


@record
class Job(Recorded):
    """One car, one customer and the parts chosen; a work pack is made of it."""

    id: str = text(OWN_ID, "tansy-subwoofer", form=ID)
    title: str = text(
        "What a person calls the job.", "subwoofer for a hatch", form=LINE,
        ask="What is done, in few words",
    )  # fmt: skip
    vehicle: str = text(
        "The vehicle record.", "quern-2016-2020-base", form=ID,
        ask="The vehicle's record",
    )  # fmt: skip
    car: JobCar = part({"tag": "k7m2", "year": 2018, "trim": "base", "answers": []})
    wanted: str = text(
        "What the customer asked for, in their words.", "more bass, everything else as it was",
        form=SENTENCE,
        ask="What the customer asked for, in their words", sketch="not said",
    )  # fmt: skip
    protect: tuple[str, ...] = listed(
        "The sounds that must work as before, with the key off too; [] when the customer names "
        "none.", ["lights-left-on warning"], [], most=20, unique=True, form=LINE,
        ask="Sounds that must work as before, with commas; none", sketch=(),
    )  # fmt: skip
    converter: str = text(
        "The converter record.", "lx-2-example", form=ID,
        ask="The converter's record",
    )  # fmt: skip
    converter_place: str = text(
        "Where the converter sits.", "beside the amplifier", form=LINE,
        ask="Where the converter goes",
    )  # fmt: skip
    pad: PadWish = figure(
        "A resistor in each leg of a pair that leaves too little room at the converter's input: "
        "auto, which it is when left out, none, or its ohms, for every pair.", "Ω", "auto", 560,
        above=0, most=1000000,
        means={"auto": "The tool takes the smallest resistor that leaves enough room, where one "
        "is needed.", "none": "No resistor is fitted, whatever the margin."},
        default="auto",
        label="Pad in each leg",
    )  # fmt: skip
    converter_supply: ConverterSupply = word(
        "Where the converter's own supply is taken, behind its own fuse at that place. Left out "
        "it is auto.", "auto", default="auto",
        means={"auto": "At the radio where a route brings it supply from there, else at the "
        "amplifier.", "amplifier": "At the terminals of the first amplifier, with its ground.",
        "block": "At the distribution block; ground at the first amplifier.",
        "radio": "At the constant supply and the ground of the radio's own plugs.",
        "fuse_position": "At a fuse position that is always live; ground at the first amplifier."},
        label="Supply of the converter",
    )  # fmt: skip
    interfaces: tuple[str, ...] = listed(
        "The data interfaces that are fitted; the first that may switch something on does. Left "
        "out, the plan takes one of the shelf only where no wire of the car serves.",
        ["bus-reader-example"], most=4, unique=True, form=ID, default=(),
        label="Data interfaces", absent="",
    )  # fmt: skip
    amplifiers: tuple[JobAmplifier, ...] = listed(
        "The amplifiers.", [{"name": "amp 1", "part": "zea-4-example",
        "place": "left luggage side"}], least=1, most=8,
        ask="One amplifier a line: sub amp: amn-600, right luggage side", option="amplifier",
        lines=True,
    )  # fmt: skip
    speakers: tuple[JobSpeaker, ...] = listed(
        "Every speaker that an amplifier of this job drives.", [{"name": "left door",
        "channel": "front-left", "nominal_ohm": 4, "rated_w_rms": 50, "existing": "yes",
        "existing_lead": {"size_awg": 20, "length_m": None},
        "driven_by": {"amplifier": "amp 1", "channel": 1}, "from": ["front-left"]}], least=1,
        most=32,
        ask="One new speaker a line: subwoofer: sub, OHMS ohm, WATTS w, sub amp 1, "
        "from rear-left rear-right, lead METRES", option="speaker", lines=True,
    )  # fmt: skip
    treatments: Treatments | None = part(
        "auto", {"front-left": "intercept", "rear-left": "none"},
        means={"auto": "The tool decides for each pair and says why."},
        key="treatment",
        label="Asked for", ask="Treatment", answer="auto",
    )  # fmt: skip
    routes: tuple[Route, ...] = listed(
        "The ways through the car; a cut list needs them.", [{"from": "radio", "to": "amp 1",
        "carries": "signal", "length_m": None, "zones": ["left sill"]}], [], most=60,
        label="Ways",
        ask="One measured route a line: radio > converter: control, METRES m, right sill",
        option="route", lines=True,
    )  # fmt: skip
    line_leads: tuple[LineLead, ...] = listed(
        "The leads from the converter's line outputs to the amplifiers' inputs; left out, the tool "
        "takes one for each input in use.", [], [{"output": 1, "to": [{"amplifier": "amp 1",
        "input": 1}, {"amplifier": "amp 1", "input": 3}], "length_m": None}], most=64, default=(),
        label="Line leads", absent="one for each input in use",
    )  # fmt: skip
    cables: tuple[str, ...] = listed(
        "The cables on the shelf, in the order they are to be taken.", ["five-core-18"], most=20,
        unique=True, form=ID,
        ask="Cables on the shelf, with commas; none",
    )  # fmt: skip
    looms: tuple[JobLoom, ...] = listed(
        "Looms that go between a plug of the car and its unit, so that no wire of the car is cut; "
        "leave it out when there is none.", [{"record": "through-8", "plug": "A"}], most=8,
        default=(),
        label="Looms", absent="none",
    )  # fmt: skip
    supply: JobSupply = part(
        {"supply_lead_m": None, "ground_lead_m": None, "fuse_to_battery_m": None,
        "fuse_family": "maxi", "material": "copper", "ground_point": "body_side",
        "listening": "heavy"},
    )  # fmt: skip
    other_turn_on_loads: tuple[TurnOnLoad, ...] = listed(
        "What else the turn-on lead switches; [] when nothing.", [], [{"name": "fan relay",
        "draw_ma": None, "coil": "yes", "diode": "yes"}], most=10,
        label="Other turn-on loads", absent="none", sketch=(),
    )  # fmt: skip
    mounts: tuple[Mount, ...] = listed(
        "Where each device is fixed, and how.", [{"device": "amp 1",
        "fixed_to": "a board under the left luggage trim", "by": "screws"}], most=40, default=(),
        label="Fixed", absent="",
    )  # fmt: skip
    holes: tuple[Hole, ...] = listed(
        "Every hole made in the car; somebody looks behind it before it is made.",
        [{"where": "floor of the left luggage side", "purpose": "screws of amp 1", "size_mm": 4,
        "behind": "free air, 60 mm to the wheel arch", "looked_by": "alder-pit-audio"}], most=40,
        default=(),
        label="Holes", absent="",
    )  # fmt: skip
    passes: tuple[CablePass, ...] = listed(
        "Every place where a cable goes through a bulkhead, and how it is closed again.",
        [{"through": "main grommet", "carries": ["supply"], "seal": "grommet",
        "drip_loop": "yes"}], most=20, default=(),
        label="Through a bulkhead", absent="",
        ask="One cable through a bulkhead a line: main grommet: supply, grommet, drip loop yes",
        answer="", option="pass", lines=True,
    )  # fmt: skip
    accept: tuple[JobAcceptance, ...] = listed(
        "Findings that you have seen and mean to leave; each must match something.", [],
        item=part({"rule": "PWR105", "reason": "the customer listens with the engine on",
        "who": "alder-pit-audio"}), most=50, default=(),
        label="Accepted", absent="",
    )  # fmt: skip
    begun: Begun | None = part(
        {"by": "alder-pit-audio", "date": "2024-06-01", "as_built": {"pins": [{"at": "A.7",
        "purpose": "turn-on", "place": "radio"}]}},
        description="That work on the car has begun, and what is joined since; `loombook begin` "
        "writes it.", default=None,
    )  # fmt: skip
    results: tuple[Result, ...] = listed(
        "What the bay sheet came to.", [], [{"test": "battery-rest", "value": None,
        "by": "alder-pit-audio", "date": "2024-06-01"}], most=300, default=(),
    )  # fmt: skip
    notes: tuple[BayNote, ...] = listed(
        "What was noted or photographed while the work was done.", [], [{"at": "battery-rest",
        "note": "posts cleaned first", "by": "alder-pit-audio", "date": "2024-06-01"}], most=300,
        default=(),
        label="Noted in the bay", absent="",
    )  # fmt: skip
    ticked: tuple[StepTick, ...] = listed(
        "Which steps of the work are done, as they were ticked in the bay.", [], [{"at":
        "step 12: radio plug A off", "done": "yes", "by": "alder-pit-audio",
        "date": "2024-06-01"}], most=400, default=(),
    )  # fmt: skip
    follow_up: tuple[FollowUp, ...] = listed(
        "What was heard of the job later.", [], [{"date": "2024-06-20", "outcome": "no fault"}],
        most=50, default=(),
        label="Heard later", absent="",
    )  # fmt: skip
    edited: str | None = text(
        "The day the record was last worked on, as YYYY-MM-DD.", "2024-06-01", form=DATE,
        default=None,
        ask="Day of writing, YYYY-MM-DD", answer="",
        label="Last worked on", absent="",
    )  # fmt: skip

    @property
    def treatment(self) -> dict[Channel, Treatment]:
        """What the job asks for each pair; empty for auto."""
        return self.treatments.by_channel if self.treatments else {}

    def amplifier(self, name: str) -> JobAmplifier | None:
        """The amplifier of that name, or None."""
        return next((each for each in self.amplifiers if each.name == name), None)

"""A job that is begun: by whom, when, and what is joined since, as facts of that day."""

from __future__ import annotations

from builder.declaring import figure, listed, part, record, text, word
from builder.model.forms import DATE, ID, LINE, NOTE, SENTENCE, YES_NO, is_yes
from builder.model.plug_forms import PLUG_ID
from builder.model.words import GradeBand, RecordKind

_MOST_JOINED = 400
"""More joints or conductors than the largest job that a record can hold."""


@record
class JoinedPin:
    """One pin or fuse position of the car that the job is joined to."""

    at: str = text("The cavity, or the fuse position.", "A.7", "F14", form=LINE)
    purpose: str = text("What it is used for.", "accessory supply", form=SENTENCE)
    wire: str = text(
        "The colours of the car's wire on that day; left out when nobody had written them down.",
        "violet/white", form=LINE, default="",
    )  # fmt: skip
    place: str = text("Where it is joined.", "radio", form=LINE)
    grade: GradeBand | None = word(
        "How far it was proved on that day.", "proven", default=None,
        means={"proven": "Its readings prove it.", "good": "Proved well enough to join.",
        "check first": "Proved well enough to listen to.", "don't rely": "Not proved well enough.",
        "unproved": "Nobody had measured it.",
        "disputed": "Its evidence spoke against itself."},
    )  # fmt: skip


@record
class LaidConductor:
    """One conductor that was added."""

    name: str = text("Its name on the sheets.", "cable 1 pair 1 positive", form=SENTENCE)
    begins: str = text("Where it begins.", "radio", form=SENTENCE)
    ends: str = text("Where it ends.", "beside the amplifier", form=SENTENCE)
    colour: str = text(
        "Its colours, left out when it is as bought.", "brown/black", form=LINE, default="",
    )  # fmt: skip
    size: str = text("Its size and metal.", "18 AWG copper", form=LINE, default="")
    length_m: float | None = figure(
        "Its length, one way, in metres.", "m", 3.6, above=0, most=200, default=None,
    )  # fmt: skip


@record
class MadeJoint:
    """One joint that was made."""

    id: str = text("Its name on the sheets.", "joint 7", form=LINE)
    place: str = text("Where it is.", "radio", form=SENTENCE)
    meets: str = text("What meets there.", "A.11 white and cable 1 pair 1 positive", form=NOTE)
    how: str = text("How it is joined.", "crimp or solder", form=LINE)
    way_back: str = text(
        "How it is undone; left out where the car's own wire is as before without it.",
        "join both ends of the car's wire again", form=SENTENCE, default="",
    )  # fmt: skip


@record
class FittedLoom:
    """One loom that sits between a plug of the car and its unit."""

    record: str = text("The loom record of that day.", "through-8", form=LINE)
    plug: str = text("The car's plug that goes into it.", "A", form=PLUG_ID)


@record
class FittedFuse:
    """One fuse that was added."""

    name: str = text("What it is called on the sheets.", "main fuse", form=SENTENCE)
    rating: str = text("What is in it.", "60 A", form=LINE)
    place: str = text("Where it is.", "0.3 m from the battery", form=SENTENCE)
    purpose: str = text("What it protects.", "supply of everything added", form=SENTENCE)


@record
class RecordUsed:
    """One record that the plan was made from, as it stood on that day."""

    kind: RecordKind = word(
        "What it is a record of.", "vehicle",
        means={"vehicle": "A car.", "housing": "The housing of a plug.",
        "converter": "A converter.", "amplifier": "An amplifier.", "cable": "A cable.",
        "loom": "A loom.", "interface": "A data interface.", "job": "This job.",
        "contributor": "Who measured.", "visit": "What was measured that day."},
    )  # fmt: skip
    id: str = text("Its id on that day.", "quern-2016-2020-base", form=LINE)
    sum: str = text(
        "The first eight digits of the sum over its text.", "0a1b2c3d", form=LINE,
    )  # fmt: skip


@record
class AsBuilt:
    """What is in the car since the job was begun."""

    pins: tuple[JoinedPin, ...] = listed(
        "Every pin and fuse position that is joined.", [{"at": "A.7", "purpose": "turn-on",
        "wire": "violet/white", "place": "radio", "grade": "proven"}], most=80,
    )  # fmt: skip
    conductors: tuple[LaidConductor, ...] = listed(
        "Every conductor that was added.", [{"name": "turn-on lead", "begins": "radio",
        "ends": "beside the amplifier", "length_m": 6.0}], most=_MOST_JOINED, default=(),
    )  # fmt: skip
    joints: tuple[MadeJoint, ...] = listed(
        "Every joint that was made.", [{"id": "joint 7", "place": "radio",
        "meets": "A.7 violet/white and turn-on lead",
        "how": "joined beside the wire, which stays whole"}], most=_MOST_JOINED, default=(),
    )  # fmt: skip
    looms: tuple[FittedLoom, ...] = listed(
        "Every loom at a plug of the car.", [{"record": "through-8", "plug": "A"}], most=8,
        default=(),
    )  # fmt: skip
    fuses: tuple[FittedFuse, ...] = listed(
        "Every fuse that was added.", [{"name": "main fuse", "rating": "60 A",
        "place": "0.3 m from the battery", "purpose": "supply of everything added"}], most=80,
        default=(),
    )  # fmt: skip
    records: tuple[RecordUsed, ...] = listed(
        "The records that the plan was made from.", [{"kind": "vehicle",
        "id": "quern-2016-2020-base", "sum": "0a1b2c3d"}], most=80, default=(),
    )  # fmt: skip


@record
class Begun:
    """When work on a job began, and what is joined since. The plan stands from that day."""

    by: str = text("Who began it: your shop or handle.", "alder-pit-audio", form=ID)
    date: str = text("The day, as YYYY-MM-DD.", "2024-06-01", form=DATE)
    reconstructed: bool = word(
        "Whether the as-built part was worked out later, from a job that was done already. Left "
        "out it is no.", "no", form=YES_NO, read=is_yes, default=False,
    )  # fmt: skip
    version: str = text(
        "The version of loombook that planned it.", "0.1.0", form=LINE, default="",
    )  # fmt: skip
    as_built: AsBuilt = part(
        {"pins": []},
        description="What is in the car since then, as facts of that day.",
    )  # fmt: skip

"""A visit as a record of its own: one contributor, one car, one day. It is written once."""

from __future__ import annotations

from builder.declaring import given, listed, part, record, text, without
from builder.findings import DataPath
from builder.model.forms import CAVITY, DATE, ID, LINE, SENTENCE
from builder.model.plug_forms import PLUG_ID
from builder.model.reading import Reading
from builder.model.recorded import OWN_ID, Recorded
from builder.model.recorded_sound import RecordedSound
from builder.model.session import Session

_LONGEST_ID = 80


def visit_id(by: str, date: str, tag: str, mark: str) -> str:
    """The usual name of a visit: no two contributors, cars or days share one.

    `mark` tells apart those of one contributor, car and day; "" for none.

    >>> visit_id("alder-pit-audio", "2024-05-13", "k7m2", "")
    'alder-pit-audio-2024-05-13-k7m2'
    """
    rest = f"-{date}-{tag}-{mark}".rstrip("-")
    return by[: _LONGEST_ID - len(rest)].rstrip("-") + rest


@record
class VisitPlace:
    """One place where the meter was held, and what it showed there."""

    plug: str | None = text("The plug, by its letter in the vehicle's record.", "A", form=PLUG_ID,
        default=None,
    )  # fmt: skip
    cavity: str | None = text(
        "The cavity, as it was counted that day.", 1, "A4", form=CAVITY, default=None,
    )  # fmt: skip
    panel: str | None = text("The fuse panel.", "cabin", form=LINE, default=None)
    fuse_position: str | None = text(
        "The fuse position as its panel names it.", "F14", form=LINE, default=None,
    )  # fmt: skip
    readings: tuple[Reading, ...] = listed(
        "What was measured there; one entry a figure, as under a pin of a vehicle.",
        [{"session": "s1", "state": "run", "quantity": "dc_v", "value": None, "battery_v": None}],
        most=200, item=part({"session": "s1", "state": "run", "quantity": "dc_v", "value": None,
        "battery_v": None}),
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        given("A fuse position is in no plug.", "fuse_position").bars("plug", "cavity"),
        given("A fuse position is named with its panel.", "fuse_position").needs("panel"),
        without("A cavity is named with its plug.", "fuse_position").needs("plug", "cavity"),
        without("A cavity is in no fuse panel.", "fuse_position").bars("panel"),
    )


@record
class Turned:
    """One time that a visit was found to be counted from the other face, and turned."""

    date: str = text("The day it was turned, as YYYY-MM-DD.", "2024-06-01", form=DATE)
    plugs: tuple[str, ...] = listed(
        "The plugs whose cavities are turned; left out, all of them.", ["A"], least=1, most=30,
        unique=True, form=PLUG_ID, default=(),
    )  # fmt: skip
    because: str | None = text(
        "How it was found.", "cavity 1 is where its photo shows cavity 10", form=SENTENCE,
        default=None,
    )  # fmt: skip
    path: DataPath = ()


@record
class Withdrawn:
    """That a visit counts no longer, and why; nothing of it is deleted."""

    date: str = text("The day it was withdrawn, as YYYY-MM-DD.", "2024-06-01", form=DATE)
    because: str = text(
        "Why, in at least ten characters.", "its meter was found broken, as the next "
        "check showed", form=SENTENCE, least=10,
    )  # fmt: skip


@record
class Visit(Recorded):
    """A visit: what one contributor measured on one car in one day, written once.

    What the car is says the vehicle's record; how far its pins are proved say both together.
    """

    id: str = text(OWN_ID, "alder-pit-audio-2024-05-13-k7m2", form=ID)
    vehicle: str = text(
        "The vehicle record that the car belongs to; the file's folder has the same name.",
        "ostrel-tansy-2017-hatch-base", form=ID,
    )  # fmt: skip
    sessions: tuple[Session, ...] = listed(
        "Who measured, when, on which car; several where meter or face changed that day.",
        [{"id": "s1", "by": "alder-pit-audio", "date": "2024-05-13", "car": {"tag": "k7m2"},
        "method": "meter", "read_from": "wire_side", "against": "battery_negative"}],
        least=1, most=20,
        item=part({"id": "s1", "by": "alder-pit-audio", "date": "2024-05-13",
        "car": {"tag": "k7m2"}, "method": "meter", "read_from": "wire_side",
        "against": "battery_negative"}),
    )  # fmt: skip
    places: tuple[VisitPlace, ...] = listed(
        "What was measured, place by place.", [], most=500,
        item=part({"plug": "A", "cavity": 1, "readings": []}),
    )  # fmt: skip
    recordings: tuple[RecordedSound, ...] = listed(
        "What recordings of the test track told of the car's pairs; loombook sound read writes it.",
        [], most=20, default=(),
        item=part({"session": "s1", "file": "front.wav", "made_by": "recorder",
        "pairs": [{"channel": "front-left", "recorded_on": "speaker"}]}),
    )  # fmt: skip
    turned: tuple[Turned, ...] = listed(
        "Where the visit was found to be counted from the other face; loombook visit turn writes "
        "it.", [{"date": "2024-06-01", "plugs": ["A"]}], most=40,
        item=part({"date": "2024-06-01", "plugs": ["A"]}), default=(),
    )  # fmt: skip
    withdrawn: Withdrawn | None = part(
        {"date": "2024-06-01", "because": "its meter was found broken, as the next "
        "check showed"}, description="That the visit counts no longer, and why; loombook visit "
        "withdraw writes it.", default=None,
    )  # fmt: skip

    @property
    def title(self) -> str:
        """Who and when, as a person would say it."""
        return f"{self.by}, {self.date}"

    @property
    def date(self) -> str:
        """The day, YYYY-MM-DD."""
        return self.sessions[0].date

    @property
    def by(self) -> str:
        """Who measured."""
        return self.sessions[0].by

    def is_turned(self, plug: str) -> bool:
        """Whether its cavities of a plug are those of the other face: turned twice is not."""
        return sum(not each.plugs or plug in each.plugs for each in self.turned) % 2 == 1

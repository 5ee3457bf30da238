"""Looms: what goes between a plug of the car and its unit, so that no wire is cut."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from builder.declaring import figure, listed, part, record, text, when, word
from builder.findings import DataPath
from builder.model.forms import DATE, ID, LINE, NOTE
from builder.model.loom_forms import LOOM_NAME
from builder.model.parts.loom_wires import LoomWire, Splice
from builder.model.plug_forms import FACE
from builder.model.recorded import OWN_ID, Recorded
from builder.model.words import Face

LoomMade = Literal["bought", "bench", "altered"]
PlugsInto = Literal["radio", "car", "amplifier"]
RingOutResult = Literal["passed", "failed"]


@record
class LoomEnd:
    """One end of a loom: a plug that goes into a unit, or one that takes the car's plug."""

    name: str = text("What wires call it.", "radio end", form=LOOM_NAME)
    housing: str = text(
        "The id of the housing of its own plug; unknown when nobody could tell which it is.",
        "template-housing", form=ID,
    )  # fmt: skip
    plugs_into: PlugsInto = word(
        "What it plugs into.", "radio",
        means={"radio": "The radio, in the place of the car's plug.",
        "car": "The car's plug, in the place of its unit.",
        "amplifier": "The factory amplifier, in the place of the car's plug."},
    )  # fmt: skip
    read_from: Face = word(
        "The face that its cavities were counted on.", "wire_side", form=FACE,
    )  # fmt: skip


@record
class Branch:
    """What leaves the loom on its way: wires that end bare, or in a plug of their own."""

    name: str = text("What wires call it.", "branch 1", form=LOOM_NAME)
    housing: str | None = text(
        "The id of the housing at its end; leave it out when its wires end bare.",
        "template-housing", form=ID, default=None,
    )  # fmt: skip
    length_m: float | None = figure(
        "How long it is, in metres, or unknown.", "m", 0.5, above=0, most=20, unknown=True,
        default=None,
    )  # fmt: skip
    at_m: float | None = figure(
        "Where it leaves the loom, from the first end along the bundle, in metres; leave it out "
        "when nobody measured it.", "m", 0.15, least=0, most=20, default=None,
    )  # fmt: skip


@record
class RingOut:
    """Who measured every wire of the loom before it went into a car, and what came of it."""

    by: str = text("Who did: your shop or handle.", "alder-pit-audio", form=ID, label="by")
    date: str = text("The day, as YYYY-MM-DD.", "2024-05-13", form=DATE, label="on")
    result: RingOutResult = word(
        "What came of it.", "passed",
        means={"passed": "Every measurement was as it should be.",
        "failed": "At least one was not, and nobody has mended it."},
        label="result",
    )  # fmt: skip
    note: str | None = text(
        "What was found, in words.", "cavity 7 was loose and is seated again", form=NOTE,
        default=None,
        label="note", absent="",
    )  # fmt: skip


@record
class Loom(Recorded):
    """A loom goes between a plug and its unit. A wire of it is known by its cavities, never by its
    colour.
    """

    id: str = text(OWN_ID, "through-8", "template-through", form=ID)
    name: str = text(
        "What a person calls the loom.", "8-way loom, fronts brought out", form=LINE,
        ask="Name of the loom",
    )  # fmt: skip
    made: LoomMade = word(
        "Where it comes from.", "bench",
        means={"bought": "Bought, and as it was bought.",
        "bench": "Made at the bench from bare plugs.",
        "altered": "Bought for another purpose, and altered."},
        label="Made", ask="bought, bench or altered",
    )  # fmt: skip
    maker: str | None = text(
        "Who makes it; leave it out for one made at the bench.", "Example Audio", form=LINE,
        default=None,
        ask="Maker, or none", answer="none",
    )  # fmt: skip
    part_number: str | None = text(
        "The maker's number of it.", "LM-8 example", form=LINE, default=None,
        label="Part number", absent="none recorded",
    )  # fmt: skip
    length_m: float | None = figure(
        "From its first end to its second, in metres, or unknown.", "m", 0.3, above=0, most=20,
        unknown=True, default=None,
        label="From end to end",
    )  # fmt: skip
    ends: tuple[LoomEnd, ...] = listed(
        "Its ends; wires that run straight through go from the first to the second.",
        [{"name": "radio end", "housing": "template-housing", "plugs_into": "radio",
        "read_from": "wire_side"}, {"name": "car end", "housing": "template-housing",
        "plugs_into": "car", "read_from": "wire_side"}], least=2, most=4,
        ask="Ends, one a line: radio end, two-row-20-latch-top, radio, wire_side", option="end",
        lines=True,
    )  # fmt: skip
    branches: tuple[Branch, ...] = listed(
        "What leaves it on its way; [] when nothing does.",
        [{"name": "branch 1", "length_m": 0.5}], most=20,
        ask="Branches, one a line: branch 1, bare, METRES", option="branch", answer="none",
        lines=True,
    )  # fmt: skip
    wires: tuple[LoomWire, ...] = listed(
        "Every wire, by its cavities.", [{"from": "radio end.1", "to": "branch 1"},
        {"through": [5, 6, 7, 8]}], least=1, most=400,
        ask="Wires, one a line: 1-8, black, 0.75 mm2 / radio end.1 > branch 1, white, 18 awg",
        option="wire", lines=True,
    )  # fmt: skip
    splices: tuple[Splice, ...] = listed(
        "The places inside where wires meet; a wire ends at one by its name.",
        [{"name": "splice 1", "made": "crimp"}], most=60, default=(),
        label="Splices", absent="none",
    )  # fmt: skip
    ring_out: RingOut | None = part(
        {"by": "alder-pit-audio", "date": "2024-05-13", "result": "passed"}, default=None,
        label="Rung out", absent="not yet",
    )  # fmt: skip
    note: str | None = text(
        "Anything a person should know about the loom.", "tape is off between both ends",
        form=NOTE, default=None,
        label="Note", absent="none",
    )  # fmt: skip
    RULES = (
        when("What was bought has a maker.", "made", "bought").needs("maker"),
    )  # fmt: skip

    @property
    def lies_m(self) -> Mapping[str, float | None]:
        """How far from the first end each branch leaves and each splice lies [m], by name."""
        branches = {each.name: each.at_m for each in self.branches}
        return branches | {each.name: each.at_m for each in self.splices}

    @property
    def names(self) -> Mapping[DataPath, str]:
        """What its ends, branches and splices are called, by where that is said."""
        return {
            **{("ends", at, "name"): end.name for at, end in enumerate(self.ends)},
            **{("branches", at, "name"): branch.name for at, branch in enumerate(self.branches)},
            **{("splices", at, "name"): splice.name for at, splice in enumerate(self.splices)},
        }

"""The plugs of a vehicle: pins, wires, and what was measured and said of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from builder.declaring import figure, given, listed, part, record, text, without, word
from builder.findings import DataPath
from builder.model.forms import CAVITY, COLOUR, ID, LINE, SENTENCE, TRI, Colour
from builder.model.pin import Condition, Fuse, Pin
from builder.model.plug_forms import FACE, FUNCTION, PLUG_ID, UNIT
from builder.model.reading import Claim, Reading
from builder.model.session import Session
from builder.model.words import UNKNOWN, Face, Function, Tri, Unit

__all__ = [
    "FUSE_POSITIONS",
    "PLUGS",
    "Claim",
    "Condition",
    "FaceRefusal",
    "Fuse",
    "FusePosition",
    "LookAlike",
    "Pin",
    "Plug",
    "Reading",
    "Session",
]

PLUGS: Final = "plugs"
FUSE_POSITIONS: Final = "fuse_positions"
"""Where the data paths of pins and of fuse positions begin."""


@dataclass(frozen=True, slots=True)
class FaceRefusal:
    """What was counted on another face than a plug and could not be turned: it is not counted.

    `cavities` are as they were typed, `counted_on` is the face, `path` is where it is said.
    """

    plug: str
    who: str
    session: str  # "" for a claim
    counted_on: Face
    cavities: tuple[str, ...]
    why: str
    path: DataPath


@record
class LookAlike:
    """A plug nearby that could be taken for this one."""

    plug: str | None = text(
        "The other plug, when it is described in this record.", "B", form=PLUG_ID, default=None,
    )  # fmt: skip
    housing: str | None = text(
        "The other plug's housing, when the plug is not described here.", "other-housing", form=ID,
        default=None,
    )  # fmt: skip
    fits: Tri = word("Whether it goes into the same socket.", "no", form=TRI)
    tell: tuple[str, ...] = listed(
        "How to tell the two apart; one entry a sign.", ["B carries only thin wires"], most=10,
        form=SENTENCE,
    )  # fmt: skip
    path: DataPath = ()

    RULES = (
        given("A look-alike is named once: by plug or by housing.", "plug").bars("housing"),
        without(
            "A look-alike has a name: plug when it is described in this record, "
            "housing when it is not.",
            "housing",
        ).needs("plug"),
    )


@record
class Plug:
    """One plug."""

    id: str = text("The letter that names the plug in this record.", "A", form=PLUG_ID)
    name: str = text("What a person calls the plug.", "main plug", form=LINE)
    unit: Unit = word("What the plug belongs to.", "radio", form=UNIT)
    location: str = text("Where the plug is.", "behind the radio, left", form=LINE)
    housing: str = text(
        "The id of its housing record; unknown when nobody could tell which it is.",
        "template-housing", form=ID,
    )  # fmt: skip
    shell_colours: tuple[Colour, ...] = listed(
        "The colours its housing was seen in; [unknown] when nobody looked.", ["grey"], least=1,
        most=10, unique=True, form=COLOUR, answer=UNKNOWN,
        column=("housing colours", "housing colour", "colour"),
    )  # fmt: skip
    read_from: Face = word(
        "The face that its cavities were counted on.", "wire_side", form=FACE,
        answer=UNKNOWN,
        column=("read from", "face"),
    )  # fmt: skip
    empty: tuple[str, ...] = listed(
        "The cavities that have no terminal in these cars.", [6], most=199, unique=True,
        form=CAVITY, default=(),
        column=("empty", "empty cavities"),
    )  # fmt: skip
    look_alikes: tuple[LookAlike, ...] = listed(
        "Every plug nearby that could be taken for this one.", [{"plug": "B", "fits": "no",
        "tell": ["B carries only thin wires"]}], most=10, default=(),
    )  # fmt: skip
    pins: tuple[Pin, ...] = listed(
        "The cavities that are described; one entry a wire, or one line: 4 accessory yellow/red.",
        [{"cavity": 5, "function": "ground"}], most=250, item=part(
        {"cavity": 5, "function": "ground", "wire": {"base": "black"}}, "5 ground black",
        description="One described cavity of a plug, or a line that says cavity, function, colour.",
        ),
    )  # fmt: skip
    path: DataPath = ()


@record
class FusePosition:
    """One fuse position."""

    position: str = text("The position as the panel names it.", "F14", form=LINE)
    panel: str = text("The panel.", "cabin", form=LINE)
    label: str = text("What the lid says of it.", "rear accessory", form=LINE)
    function: Function = word(
        "How it behaves, in the same words as for a pin.", "accessory", form=FUNCTION,
    )  # fmt: skip
    rating_a: float | None = figure(
        "The rating of its fuse in amperes, or unknown.", "A", None, above=0, most=500,
        unknown=True,
        default=None,
    )  # fmt: skip
    readings: tuple[Reading, ...] = listed(
        "What was measured at the position.", [], most=200, default=(),
    )  # fmt: skip
    path: DataPath = ()

    @property
    def at_panel(self) -> str:
        """The panel as a place of the car: "cabin fuse panel"."""
        return f"{self.panel} fuse panel"

    @property
    def at(self) -> str:
        """Where it is, for who looks for it: "F14 in the cabin fuse panel"."""
        return f"{self.position} in the {self.at_panel}"

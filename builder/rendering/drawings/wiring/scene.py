"""What a wiring picture is made of: runs of wire, marks on them, boxes behind, words in front.

Units are those of the view box, y grows downward. A scene is filled by the layout and painted
afterwards, so that crossings can be counted before anything is written.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from builder.model.wire import Wire
from builder.planning.words import ElementKind, LinkClass
from builder.rendering.drawings.canvas import Anchor, Box, Point
from builder.rendering.drawings.lettering import text_width
from builder.rendering.drawings.wiring.plug_ends import PlugShape

TEXT = 10.5
"""Size of every word but titles: printed on A4 it must not fall under 6.5 pt."""
TITLE = 13.0
PAIR_PITCH = 15.0
"""Between the two wires of a pair: near enough to be seen as one."""

FORK_FROM, FORK_PITCH = 20.0, 24.0
"""From the converter to the first Y-lead, and from one to the next."""

HOLD_UP_WIDTH = 76.0
GND_FROM, CLAMP_PITCH = 34.0, 12.0
"""From the right edge of the converter to the ground at its foot, and between wires in it."""
HUNG_FROM, HUNG_WIDE = 16.0, 118.0
"""From the column of the turn-on wires to what hangs below the converter, and its least width."""

FrameKind = Literal["unit", "jacket", "body", "speaker", "battery", "driver"]
"""A box: a device, a cable's jacket, the car's body, a speaker, a battery, a small device."""
RunKind = Literal["wire", "supply", "ground", "lead", "body", "bare"]
"""How a run is drawn: coloured wire, thick supply, thick ground, coaxial line lead, the car's own
body, the thin lead of a part."""
MarkKind = Literal[
    "screw",
    "ring",
    "stud",
    "slot",
    "cavity",
    "sleeve",
    "upsleeve",
    "tap",
    "dot",
    "cap",
    "fork",
    "contact",
    "home",
]
"""Terminal screw, line socket, stud, cavity to use and another, crimp under a sleeve (on an upright
wire), wire joined beside, lead of a part, end closed off, Y-lead, terminal of a small device."""


@dataclass(frozen=True, slots=True)
class Run:
    """One conductor as a line with right angles. `cuts` are boxes in which a name interrupts it."""

    ids: tuple[str, ...]  # what it shows: a wire, or centre and shield of a lead
    points: tuple[Point, ...]
    kind: RunKind
    carries: LinkClass
    wire: Wire | None = None
    cuts: tuple[Box, ...] = ()
    title: str = ""


@dataclass(frozen=True, slots=True)
class Mark:
    """A sign at one place: a terminal, a joint, a closed end."""

    kind: MarkKind
    at: Point
    ids: tuple[str, ...]
    open_end: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A fuse, resistor, capacitor or diode lying along a run, `upright` or level."""

    kind: ElementKind
    at: Point
    ids: tuple[str, ...]
    words: str = ""  # written inside it: "40 A"
    upright: bool = False
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text, its baseline at a place."""

    text: str
    at: Point
    size: float = TEXT
    anchor: Anchor = "start"
    bold: bool = False
    ids: tuple[str, ...] = ()

    @property
    def box(self) -> Box:
        """Where it stands, by the wide estimate of its letters."""
        width = text_width(self.text, self.size)
        left = self.at[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * width
        return left, self.at[1] - 0.8 * self.size, width, 1.05 * self.size


@dataclass(frozen=True, slots=True)
class Frame:
    """A box behind the wires: a unit, a jacket, a housing."""

    kind: FrameKind
    box: Box
    ids: tuple[str, ...] = ()
    title: str = ""


@dataclass(frozen=True, slots=True)
class Shell:
    """A plug's housing behind the wires, its top left at a place; `empty` names its cavities that
    have no wire of the job: the same in every picture of a circuit."""

    unit: str
    shape: PlugShape
    at: Point
    empty: frozenset[str]


BADGE_R = 34.0


@dataclass(frozen=True, slots=True)
class Badge:
    """The number of a step, for a map without words."""

    number: str
    at: Point


@dataclass(slots=True)
class Scene:
    """One picture being laid out."""

    frames: list[Frame] = field(default_factory=list)
    shells: list[Shell] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    badges: list[Badge] = field(default_factory=list)

    def say(
        self, text: str, x: float, y: float, *, size: float = TEXT, anchor: Anchor = "start",
        bold: bool = False, ids: Sequence[str] = (),
    ) -> Words:  # fmt: skip
        """Write a line with its baseline at a place."""
        words = Words(text, (x, y), size, anchor, bold, tuple(ids))
        self.words.append(words)
        return words

    def mark(self, kind: MarkKind, at: Point, *ids: str, open_end: str = "") -> None:
        """Put a sign at a place."""
        self.marks.append(Mark(kind, at, tuple(each for each in ids if each), open_end))

    @property
    def shown(self) -> set[str]:
        """Ids of everything of the circuit that is drawn so far."""
        found = [frame.ids for frame in self.frames] + [run.ids for run in self.runs]
        found += [mark.ids for mark in self.marks] + [part.ids for part in self.parts]
        found += [words.ids for words in self.words]
        return {each for ids in found for each in ids}

    @property
    def opened(self) -> set[str]:
        """The open ends that are drawn so far."""
        return {mark.open_end for mark in self.marks if mark.open_end}

"""Which sheets a work pack has, and which cautions stand on each of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

from builder.model.glossary import BAY_SHEET, WIRING
from builder.planning.job.standing import NOT_BEGUN, JobStanding
from builder.planning.work_pack import WorkPack
from builder.rendering.pages.caution import Caution

SheetName = Literal[
    "cover", "parts", "tap", "levels", "power", "loom", "cables", "tests", "steps", "because",
    "revert", "as_built", "customer",
]  # fmt: skip
"""The sheets of a work pack, in the order of the work, those that leave the shop last; each is the
name of a template."""


class Sheet(NamedTuple):
    """One sheet: its template's name, letter and title, and the cautions that concern it."""

    id: SheetName
    letter: str
    title: str
    cautions: tuple[Caution, ...]
    said_beside: tuple[Caution, ...] = ()
    """What the sheet before it says whole in the same columns of paper."""
    in_columns: bool = False
    """Whether paper has it in columns that it shares with the sheets beside it: narrow lists."""

    @property
    def alone(self) -> bool:
        """Whether it leaves the shop by itself: it begins a page and says its cautions whole."""
        return self.id in _ALONE

    @property
    def own_print(self) -> bool:
        """Whether paper has it only when it is printed from its own address: nobody works by it."""
        return self.id == "because"

    @property
    def at_car(self) -> bool:
        """Whether it is in the hand at the car: it says dangers whole, wherever they stand too."""
        return self.id in _AT_THE_CAR

    @property
    def on_cover(self) -> tuple[Caution, ...]:
        """The cautions that paper names here and says whole on the cover: the sheets share pages.
        A sheet that leaves the shop says all of its own; those in the hand at the car say dangers.
        """
        if self.alone:
            return ()
        whole = [one for one in self.cautions if one.weight == "danger" and self.at_car]
        return tuple(x for x in self.cautions if x not in whole or x in self.said_beside)


_DANGERS = ("restraints", "high_voltage", "stated")
_TOPICS: dict[SheetName, tuple[str, ...]] = {
    "tap": (*_DANGERS, "radio", "removal", "emergency_call"),
    "levels": ("engine_sound",),
    "power": (*_DANGERS, "battery", "start_stop"),
    "cables": (*_DANGERS, "radio"),
    "tests": (*_DANGERS, "radio", "start_stop", "emergency_call"),
    "steps": (*_DANGERS, "radio", "removal", "battery", "noise_cancellation"),
    "revert": (*_DANGERS, "battery", "removal", "noise_cancellation"),
}
"""Topics of the cautions of each sheet. The cover has them all; dangers to people come first."""
_TITLES: dict[SheetName, str] = {
    "cover": "The job",
    "parts": "Parts list",
    "tap": WIRING.capitalize(),
    "levels": "Levels and gains",
    "power": "Power",
    "loom": "Loom, made on the table",
    "cables": "Cables, joints and labels",
    "tests": BAY_SHEET.capitalize(),
    "steps": "Steps in order",
    "because": "Why it is planned like this",
    "revert": "Back to stock",
    "as_built": "As built",
    "customer": "For the customer",
}
LETTERS = dict(zip(_TITLES, "AJBCDLEFGKHMI", strict=True))
"""The letter of each sheet: the same in every pack, whichever sheets it has."""
_ALONE: frozenset[SheetName] = frozenset({"revert", "customer"})
_AT_THE_CAR: frozenset[SheetName] = frozenset({"tests", "steps"})
PARTS_UNDER_COVER = 36
"""So many lines of the parts list find room under a cover; a longer one stands in columns."""
_MEASURE_FIRST = "Measure first"
_BUILD_ONLY: frozenset[SheetName] = frozenset({"loom", "cables", "revert", "customer", "parts"})
"""Sheets that say how to build. They are left out while it may not be built."""
_OF_A_RECALL: frozenset[SheetName] = frozenset(
    {"cover", "revert", "as_built", "customer", "because"}
)
"""Sheets that say what is there and how it comes out again."""
_FIRST: tuple[SheetName, ...] = ("cover", "tests", "steps")
"""Sheets that lead while it may not be built: what to measure, and in which order."""


def sheets_of(
    pack: WorkPack, cautions: Sequence[Caution], standing: JobStanding = NOT_BEGUN
) -> list[Sheet]:
    """Return the sheets of a pack in the order of the work.

    A job that is begun has what is built; one that is recalled, or that no record plans any more,
    has nothing to join or to buy. A
    tap plan has all that it has matter for. A probe plan keeps what does not depend on the
    open question and leads with what to measure; no plan keeps the reasons.
    """
    wanted = [name for name in _TITLES if _has_matter(pack, name, standing)]
    if standing.state == "recalled" or (standing.begun and pack.kind != "tap_plan"):
        return [_sheet(pack, name, cautions) for name in wanted if name in _OF_A_RECALL]
    if pack.kind != "tap_plan":
        wanted = [name for name in wanted if name not in _BUILD_ONLY]
        wanted.sort(key=lambda name: _FIRST.index(name) if name in _FIRST else len(_FIRST))
    if pack.kind == "no_plan":
        wanted = [name for name in wanted if name in ("cover", "tests", "because")]
    if "parts" in wanted and len(pack.parts) > PARTS_UNDER_COVER:
        wanted.remove("parts")
        at_car = (at for at, name in enumerate(wanted) if name in _AT_THE_CAR)
        wanted.insert(next(at_car, len(wanted)), "parts")
    return _in_columns([_sheet(pack, name, cautions) for name in wanted])


def _in_columns(sheets: list[Sheet]) -> list[Sheet]:
    """Mark what shares columns of paper; a danger stands whole once, in the first of them."""
    shared = [one for one in sheets if one.at_car or (one.id == "parts" and one != sheets[1])]
    first = next((one for one in shared if one.at_car), None)
    return [
        one._replace(
            in_columns=one in shared,
            said_beside=first.cautions if first and one.at_car and one != first else (),
        )
        for one in sheets
    ]


def _sheet(pack: WorkPack, name: SheetName, cautions: Sequence[Caution]) -> Sheet:
    measuring = name == "tests" and pack.kind != "tap_plan"
    title = _MEASURE_FIRST if measuring else _TITLES[name]
    topics = _TOPICS.get(name, ())
    mine = tuple(caution for caution in cautions if caution.topic in topics)
    return Sheet(name, LETTERS[name], title, mine)


def _has_matter(pack: WorkPack, name: SheetName, standing: JobStanding) -> bool:
    matter: dict[SheetName, object] = {
        "cover": True,
        "tap": pack.plan.feeds or pack.plan.ladder or pack.treatments,
        "levels": pack.levels,
        "power": pack.power,
        "loom": pack.looms,
        "cables": pack.conductors or pack.cut_list or pack.speaker_leads,
        "tests": pack.tests or pack.plan.tests,
        "as_built": standing.as_built,
        "because": True,
    }
    return bool(matter[name] if name in matter else getattr(pack, name))

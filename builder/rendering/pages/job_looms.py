"""The bench sheet of a loom on the page of its job: faces, wires, what to do, ring-out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple, TypeVar

from markupsafe import Markup

from builder.figures import at_most, rounded_down, shown, within
from builder.planning.harness.joint_list import WRAPPED
from builder.planning.harness.rows import (
    CLOSED_OFF,
    LoomCableRow,
    LoomDoing,
    LoomJointRow,
    LoomSheet,
    LoomWireRow,
    RingOutRow,
    SleeveOn,
)
from builder.planning.looms.ring_out import OPEN_LEAST_MOHM
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.canvas import identifier
from builder.rendering.drawings.loom_bench import loom_bench
from builder.rendering.drawings.loom_said import read_branch, read_out
from builder.rendering.drawings.plug_faces import plug_faces
from builder.rendering.pages.parts import bare_plug

_DOINGS: dict[LoomDoing, str] = {
    "through": "through, untouched",
    "cut": "cut, both sides used",
    "beside": "stays whole, one joined beside",
    "branch": "joined at its branch",
    "closed": "bare end closed off",
}


_GOES_ON: dict[SleeveOn, str] = {
    "before": "before",
    "after": "after",
    "none": "–",
}


class LoomView(NamedTuple):
    """One loom's sheet: its wires, its lines and the faces of its plugs, ready to print."""

    sheet: LoomSheet
    counted: str
    wrapped: bool
    drawings: tuple[Markup, ...]
    wires: list[tuple[LoomWireRow, str, str, str, str]]
    cables: list[tuple[LoomCableRow, str, str]]
    joints: list[tuple[LoomJointRow, JointWords]]
    ring_out: list[tuple[RingOutRow, str, str]]
    faces: list[tuple[str, tuple[Markup, ...]]]


def loom_views(pack: WorkPack, parts: JobParts) -> list[LoomView]:
    """Return the bench sheets of a pack."""
    return [
        LoomView(
            sheet,
            wires_counted(sheet),
            any(row.sleeve == WRAPPED for row in sheet.joints),
            loom_bench(sheet, parts.shelf.looms[sheet.record], identifier("bench", sheet.loom)),
            [
                (
                    _named(row),
                    doing_words(row),
                    place_words(row),
                    length_words(row),
                    lines_words(row),
                )
                for row in sheet.wires
            ],
            [(row, *cable_words(row)) for row in sheet.cables],
            [(_named(row), joint_words(row)) for row in sheet.joints],
            [(row, meter_words(row), must_read(row)) for row in sheet.ring_out],
            _faces(sheet, parts),
        )
        for sheet in pack.looms
    ]


_Row = TypeVar("_Row", LoomWireRow, LoomJointRow)


def _named(row: _Row) -> _Row:
    """A row whose wire says once where it comes from: a bare end is known by that, and the list has
    it before already."""
    start, _, end = row.wire.partition(" to ")
    return replace(row, wire=f"{start} to {end.removesuffix(f' (from {start})')}")


def drawing_lines(sheet: LoomSheet, parts: JobParts) -> Iterator[str]:
    """Yield each drawing of a loom in words."""
    loom = parts.shelf.looms[sheet.record]
    yield " ".join(read_out(sheet, loom))
    yield from (" ".join(read_branch(sheet, loom, each)) for each in loom.branches)


def _faces(sheet: LoomSheet, parts: JobParts) -> list[tuple[str, tuple[Markup, ...]]]:
    found: list[tuple[str, tuple[Markup, ...]]] = []
    loom = parts.shelf.looms[sheet.record]
    plugs = [(end.name, end.housing) for end in loom.ends]
    plugs += [(each.name, each.housing) for each in loom.branches if each.housing]
    for name, id in plugs:
        housing = parts.shelf.housings.get(id)
        if housing is not None:
            title = f"{name} of {sheet.loom}"
            found.append((title, plug_faces(housing, bare_plug(title, title, housing))))
    return found


def wires_counted(sheet: LoomSheet) -> str:
    """Return how many wires there are of each fate: "8 cut, 8 through"."""
    counts = Counter(doing_words(row) for row in sheet.wires)
    return "; ".join(f"{count}: {said}" for said, count in counts.items())


def doing_words(row: LoomWireRow) -> str:
    """Return what becomes of a wire; of one of whose sides one is not used, so; its fuse."""
    fused = f"; a fuse of {row.fuse} in it" if row.fuse else ""
    return f"{_becomes(row)}{fused}"


def _becomes(row: LoomWireRow) -> str:
    if row.doing == "cut" and CLOSED_OFF in (row.unit_side, row.car_side):
        both = row.unit_side == row.car_side
        return "cut, both sides closed off" if both else "cut, one side used, one closed off"
    return _DOINGS[row.doing]


def place_words(row: LoomWireRow) -> str:
    """Return where a wire is cut or joined."""
    return "–" if row.joint_mm is None else shown(row.joint_mm, 0)


def length_words(row: LoomWireRow) -> str:
    """Return how long a wire is cut, in millimetres: "400"."""
    return "not recorded" if row.length_m is None else shown(1000 * row.length_m, 0)


def cable_words(row: LoomCableRow) -> tuple[str, str]:
    """Return how long a cable is cut and how much jacket comes off at the loom's end."""
    long = "as measured" if row.length_m is None else f"{shown(row.length_m, 1)} m"
    if not row.bands:
        return long, "–"
    return long, "as its cores need" if row.off_mm is None else shown(row.off_mm, 0)


def lines_words(row: LoomWireRow) -> str:
    """Return which lines of the joint list are about a wire."""
    return ", ".join(str(each) for each in row.joints) or "–"


class JointWords(NamedTuple):
    """The millimetres of a line of the joint list, as printed."""

    cut: str
    tip: str
    core: str
    sleeve: str


def joint_words(row: LoomJointRow) -> JointWords:
    """Return the millimetres of a joint; a dash where there is nothing to cut, else "measure"."""
    wrapped, far = row.sleeve == WRAPPED, row.side.startswith("far lead")
    lies = "–"
    if row.sleeve_from_mm is not None and row.sleeve_to_mm is not None:
        lies = f"{shown(row.sleeve_from_mm)} to {shown(row.sleeve_to_mm)}"
    goes_on = _GOES_ON[row.sleeve_on]
    return JointWords(
        "–" if row.cut_mm is None else shown(row.cut_mm, 0),
        "–" if far else _mm(row.tip_mm),
        _mm(row.core_mm) if row.core else "–",
        "–" if wrapped else goes_on if far or lies == "–" else f"{goes_on}: {lies}",
    )


def _mm(value: float | None) -> str:
    return "measure" if value is None else shown(value, 0)


def meter_words(row: RingOutRow) -> str:
    """Return what the meter is set to for a measurement."""
    if not row.joined:
        return "highest ohms"
    if row.unit == "Ω":
        return "ohms"
    return "millivolts" if row.at_a is None else f"mV, {shown(row.at_a)} A flows"


def must_read(row: RingOutRow) -> str:
    """Return what a measurement must read, with the share of a cable in it."""
    if not row.joined:
        return f"open: at least {shown(OPEN_LEAST_MOHM)} MΩ"
    if row.most is None:
        return "joined; its fuse is not on record: as little as the wire beside it"
    at = "" if row.at_a is None else f" at {shown(row.at_a)} A"
    most = _most(row.most, row.unit)
    said = f"at most {most} {row.unit}{at}"
    if row.least is not None:
        least, most = within(row.least, row.most, row.unit)
        said = f"{least} to {most} {row.unit}{at}"
    if row.of_cable is None:
        return said
    own = _most(row.most - row.of_cable, row.unit)
    places = max(len(each.partition(".")[2]) for each in (most, own))
    cable = shown(float(most) - float(own), places)
    return f"{said} (cable {cable}, rest {own})"


def _most(limit: float, unit: str) -> str:
    """A limit as printed, never above it: ohms to the 0.01 that this sheet's own meter reads."""
    return shown(rounded_down(limit, 2), 2) if unit == "Ω" else at_most(limit, unit)

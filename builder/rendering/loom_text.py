"""The bench sheets of a work pack as text."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pages.job_looms import (
    cable_words,
    doing_words,
    drawing_lines,
    joint_words,
    length_words,
    lines_words,
    meter_words,
    must_read,
    place_words,
    wires_counted,
)
from builder.rendering.terminal import columns

_WIRE_LIST = (
    "Wire list: between which cavities, carries, car, own colour, size, whole length [mm], what "
    "becomes of it, at which millimetre, lines of the joint list"
)
_CABLES = (
    "Cable list: cut from, length, millimetres of jacket off at the loom's end, the end that comes "
    "here, bands, label, what is joined to nothing here"
)
_JOINTS = (
    "Joint list, in millimetres from the back of the {}, on a branch from where it leaves: wire, "
    "which side of it, its colour, what is joined there, cut at, tip at, core from jacket to tip, "
    "barrel, sleeve as bought / after heating, sleeve lies from and to"
)


def loom_lines(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    """Yield every loom's wires, what is done with them, and the ring-out."""
    for sheet in pack.looms:
        yield from ("", f"{sheet.loom}: {sheet.title}, between {sheet.between}; {sheet.record}")
        yield f"  wires: {wires_counted(sheet)}"
        yield from (f"  {line}" for line in sheet.terms)
        yield from ("", "You need", *(f"  [ ] {line}" for line in sheet.needs))
        yield from ("", _WIRE_LIST)
        yield from columns(
            (row.wire, row.carries, row.car_colour, row.loom_colour, row.size, length_words(row),
             doing_words(row), place_words(row), lines_words(row))
            for row in sheet.wires
        )  # fmt: skip
        yield from ("", *(f"Drawing in words: {each}" for each in drawing_lines(sheet, parts)))
        if sheet.cables:
            yield from ("", _CABLES)
            yield from columns(
                (f"[ ] {row.cable}", row.material, *cable_words(row), row.comes,
                 str(row.bands or "–"), row.label, "; ".join(row.others))
                for row in sheet.cables
            )  # fmt: skip
        yield from ("", "How each thing is done", *(f"  - {line}" for line in sheet.rules))
        yield from ("", "In this order")
        yield from (f"  [ ] {at:>2}  {line}" for at, line in enumerate(sheet.order, 1))
        if sheet.joints:
            yield from ("", _JOINTS.format(sheet.unit_end))
            yield from columns(
                (f"[ ] {row.number}", row.wire, row.side, row.colour, row.joined,
                 *joint_words(row)[:3], row.barrel, row.sleeve, joint_words(row).sleeve)
                for row in sheet.joints
            )  # fmt: skip
        yield from ("", f"Ring-out of {sheet.loom}")
        yield f"  points on the bar: {', '.join(sheet.bundle)}"
        yield from (f"  - {line}" for line in sheet.measuring)
        yield from columns(
            (f"[ ] {row.number}", row.probe, row.other, meter_words(row), must_read(row),
             row.what_for)
            for row in sheet.ring_out
        )  # fmt: skip
        yield from ("", "A line that fails", *(f"  - {line}" for line in sheet.failing))

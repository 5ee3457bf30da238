"""The bench sheets of a work pack as text."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.pages.job_looms import (
    doing_words,
    length_words,
    must_read,
    place_words,
    wires_counted,
)
from builder.rendering.terminal import columns

_WIRE_LIST = (
    "Wire list: between which cavities, carries, car, own colour, size, whole length, what becomes "
    "of it, at which millimetre, side to the unit, side to the car"
)


def loom_lines(pack: WorkPack, parts: JobParts) -> Iterator[str]:
    """Yield every loom's wires, what is done with them, and the ring-out."""
    for sheet in pack.looms:
        yield from ("", f"{sheet.loom}: {sheet.title}, between {sheet.between}; {sheet.record}")
        yield f"  wires: {wires_counted(sheet)}"
        yield from ("", "You need", *(f"  [ ] {line}" for line in sheet.needs))
        yield from ("", _WIRE_LIST)
        yield from columns(
            (row.wire, row.carries, row.car_colour, row.loom_colour, row.size, length_words(row),
             doing_words(row), place_words(row), row.unit_side, row.car_side)
            for row in sheet.wires
        )  # fmt: skip
        yield from ("", "In this order")
        yield from (f"  [ ] {at:>2}  {line}" for at, line in enumerate(sheet.order, 1))
        yield from ("", f"Ring-out of {sheet.loom}")
        yield f"  bundle: {', '.join(sheet.bundle)}"
        yield from columns(
            (f"[ ] {row.number}", row.probe, row.other, must_read(row), row.what_for)
            for row in sheet.ring_out
        )

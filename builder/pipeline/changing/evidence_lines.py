"""Which lines of a job's sheet are read by what a sheet has among its readings.

A phone writes a figure of a proof line twice, as a reading of the pin and as the result of the
line. Nobody does so by hand: a reading that is the very one of a line counts as its result.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import inf
from typing import Any

from builder.model.sheet import Sheet, SheetReading, SheetResult
from builder.model.words import BATTERY_NEGATIVE, GROUND_REFERENCES
from builder.planning.work_pack import BayTest
from builder.proof.band import where_in
from builder.rendering.sheet_facts import reading_facts

OPEN = "open"
_OWN_COUNT = "moulded"
"""Cavities as the sheet prints them; counted otherwise they name other ones."""


def with_read_lines(sheet: Sheet, tests: Sequence[BayTest]) -> Sheet:
    """Return a sheet with a result of each line that only its readings have.

    Args:
        sheet: As it was filled.
        tests: The lines of its job.
    """
    if sheet.session["read_from"] != _OWN_COUNT:
        return sheet
    told = {result.test for result in sheet.results}
    lines = [test for test in tests if test.reading is not None and test.id not in told]
    more = tuple(
        SheetResult(test.id, _facts(test, reading), reading.path)
        for reading, test in _read(sheet, lines)
    )
    return replace(sheet, results=(*sheet.results, *more))


def _read(sheet: Sheet, lines: Sequence[BayTest]) -> Iterator[tuple[SheetReading, BayTest]]:
    usual = sheet.session["against"]
    asked = [(test, _asked(reading_facts(test.reading))) for test in lines if test.reading]
    for reading in sheet.readings:
        place = {"plug": reading.plug, "cavity": reading.cavity,
                 "fuse_position": reading.fuse_position}  # fmt: skip
        said = _asked({"against": usual, **place, **reading.facts})
        yield from ((reading, test) for test, facts in asked if facts == said)


def _asked(facts: dict[str, Any]) -> tuple[str, ...]:
    """What makes two readings the same: place, state, load, other probe, quantity."""
    against = str(facts.get("against", BATTERY_NEGATIVE))
    against = BATTERY_NEGATIVE if against in GROUND_REFERENCES else against
    keys = ("plug", "cavity", "fuse_position", "state", "quantity")
    return (*(str(facts.get(key) or "") for key in keys), str(facts.get("load", "none")), against)


def _facts(test: BayTest, reading: SheetReading) -> dict[str, Any]:
    """A result as a phone writes it: a meter that shows open has no figure."""
    value = reading.facts["value"]
    if value == OPEN:
        return {"passed": "yes" if where_in(test.band, inf, None) == "in" else "no"}
    beside = reading.facts.get("battery_v")
    with_battery = test.band.moves and beside is not None
    return {"value": value, **({"battery_v": beside} if with_battery else {})}

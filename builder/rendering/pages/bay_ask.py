"""What a phone has to know of a line of the bay sheet, to take its reading and judge it."""

from __future__ import annotations

import json
from typing import Any

from builder.model.job import Job
from builder.model.names import FACE_NAMES, READING_UNITS
from builder.parsing.reading_words import LIMITS
from builder.planning.plan import Plan
from builder.planning.words import TestQuantity
from builder.planning.work_pack import BayTest
from builder.rendering.sheet_facts import also_asked, reading_facts

TEST_UNITS: dict[TestQuantity, str] = {**dict(READING_UNITS.items()), "a": "A", "check": ""}
"""The unit behind the figure of a test, so that DC is not taken for AC."""
_SPANS: dict[TestQuantity, tuple[float, float]] = {
    quantity: (least, most) for quantity, (least, most, _) in LIMITS.items()
}


def ask_of(test: BayTest) -> str:
    """Return a line as JSON: its name, band, unit, and for a proof reading what it will say.

    `low` and `high` are the very limits that results are compared with, not the printed ones: each
    is [share, offset], share × battery volts + offset, as in the table of signatures, or null.
    `span` is the least and most that such a reading can be; `also` what belongs beside the figure.
    `mohm` is the most that passes as volts over the amperes read beside them.
    """
    ask: dict[str, Any] = {
        "test": test.id,
        "quantity": test.quantity,
        "unit": TEST_UNITS[test.quantity],
        "low": test.band.low,
        "high": test.band.high,
    }
    if test.quantity in _SPANS:
        ask["span"] = _SPANS[test.quantity]
    if test.high_mohm is not None:
        ask["mohm"], ask["also"] = test.high_mohm, ("current_a",)
    elif test.reading is not None:
        ask["facts"] = reading_facts(test.reading)
        ask["also"] = also_asked(test.reading)
    elif test.band.moves:
        ask["also"] = ("battery_v",)
    return _json(ask)


def sheet_of_job(job: Job, digest: str) -> str:
    """Return as JSON what a job's sheet is of, and the car as the job knows it."""
    car = {"tag": job.car.tag, "year": job.car.year, "built": job.car.built, "trim": job.car.trim}
    known = {key: value for key, value in car.items() if value is not None}
    sheet = {"vehicle": job.vehicle, "job": job.id, "record": digest, "car": known}
    return _json({**sheet, "faces": _DRAWN})


def sheet_of_plan(plan: Plan, digest: str) -> str:
    """Return as JSON what a plan's readings are of."""
    sheet = {"vehicle": plan.vehicle, "converter": plan.converter, "record": digest, "car": {}}
    return _json({**sheet, "faces": _DRAWN})


_DRAWN = {face: FACE_NAMES[face] for face in ("wire_side", "mating_side")}
"""The words that stand over the two drawings of a plug."""


def _json(value: dict[str, Any]) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))

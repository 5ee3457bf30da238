"""What a phone has to know of a line of the bay sheet, to take its reading and judge it."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
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


Ask = Mapping[str, Any]
_FACTS = "facts"


def ask_of(test: BayTest) -> Ask:
    """Return of a line its band, unit, and for a proof reading what it will say.

    `low` and `high` are the very limits that results are compared with, not the printed ones: each
    is [share, offset], share × battery volts + offset, as in the table of signatures, or null.
    `span` is the least and most that such a reading can be; `also` what belongs beside the figure.
    `mohm` is the most that passes as volts over the amperes read beside them.
    """
    ask: dict[str, Any] = {
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
        ask[_FACTS] = reading_facts(test.reading)
        ask["also"] = also_asked(test.reading)
    elif test.band.moves:
        ask["also"] = ("battery_v",)
    return ask


def asked_alike(asks: Sequence[Ask]) -> tuple[str, list[str]]:
    """Return as JSON what some lines ask alike, and of each what is its own.

    A script puts the two together. The keys of `facts` that each line has of its own are null in
    what they have alike, so that all stay in their order.
    """
    alike = {key: value for key, value in asks[0].items() if _said_by_all(key, value, asks)}
    alike.pop(_FACTS, None)
    if len({tuple(ask.get(_FACTS, ())) for ask in asks}) == 1 and _FACTS in asks[0]:
        facts = [ask[_FACTS] for ask in asks]
        alike[_FACTS] = {k: v if _said_by_all(k, v, facts) else None for k, v in facts[0].items()}
    return _json(alike), [_json(_own(ask, alike)) for ask in asks]


def _said_by_all(key: str, value: object, every: Sequence[Ask]) -> bool:
    return all(key in each and each[key] == value for each in every)


def _own(ask: Ask, alike: Ask) -> dict[str, Any]:
    own = {key: value for key, value in ask.items() if key not in alike}
    if _FACTS in alike:
        facts = {k: v for k, v in ask[_FACTS].items() if alike[_FACTS][k] is None}
        own |= {_FACTS: facts} if facts else {}
    return own


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

"""Every shipped visit, filed as if it had been counted on the other face of its plugs."""

from __future__ import annotations

import json
import shutil
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from shipped_book import PINOUTS, loombook
from shipped_cars import CARS, car_path, read_car

from builder.book import open_book
from builder.model.vehicle import Vehicle
from builder.parsing import parse_vehicle
from builder.pipeline.checking.shelf import read_shelves
from builder.planning.feeds.tap_plan import make_plan, serves
from builder.planning.plan_json import plan_as_json
from builder.proof.faces.poses import mirror
from builder.proof.faces.turning import turned
from builder.proof.grading.grade import grade_pin
from builder.rules import session_mirrored

OTHER = {"wire_side": "mating_side", "mating_side": "wire_side"}
BOOK = open_book(PINOUTS)
SHELF = read_shelves(BOOK, BOOK.files())[0].book
RECORDS = {name: read_car(name).data for name in CARS}
VISITS = [
    (name, session["id"])
    for name, record in RECORDS.items()
    for session in record.get("sessions", ())
    if any(r["session"] == session["id"] for p in record["plugs"] for _, r in
           [(pin, r) for pin in p["pins"] for r in pin.get("readings", ())])
]  # fmt: skip
FITS_FROM_BOTH = {
    ("brantmoor-sedge-2015", "rm-s"): "speaker legs alone",
    ("brantmoor-sedge-2015", "tl"): "six speaker legs and a ground, whose mirror nobody describes",
    ("wexlow-quern-2016-early", "na-scope"): "speaker legs alone",
    ("wexlow-quern-2018-late", "rm-2"): "speaker legs alone",
    ("torvane-rook-2016-pickup", "a2"): "speaker legs alone",
    ("ostrel-brindle-2020", "tl"): "three cavities of a plug",
    ("quillan-lovage-2021-top", "t2"): "one cavity of a plug",
    ("veldane-ullin-2021-premium", "kd2"): "three cavities of a plug",
    ("dunmarrow-sorrel-2018-hatch", "m2"): "speaker legs alone",
    (
        "dunmarrow-sorrel-2018-hatch",
        "c1",
    ): "eight speaker legs and two more; three of the other plug",
}
"""Visits that nobody could tell from their mirror, and why."""


def filed(record: dict[str, Any], session: str, *, said: bool) -> dict[str, Any]:
    """The record with a visit's readings at the cavities a count from the other face gives."""
    found, images = deepcopy(record), {}
    for plug in found["plugs"]:
        images[plug["id"]] = mirror(SHELF.housings[plug["housing"]])
    for plug in found["plugs"]:
        moved = []
        for pin in plug["pins"]:
            own = pin.get("readings", [])
            mine = [one for one in own if one["session"] == session]
            own[:] = [one for one in own if one["session"] != session]
            moved += [(images[plug["id"]][str(pin["cavity"])], pin, one) for one in mine]
        for cavity, pin, reading in moved:
            of, dot, point = str(reading.get("against", "body")).rpartition(".")
            if point not in ("body", "battery_negative"):
                reading["against"] = f"{of}{dot}{images[of or plug['id']][point]}"
            line_for(plug, cavity, pin).setdefault("readings", []).append(reading)
        if moved and said:
            face = plug["read_from"]
            seen = SHELF.housings[plug["housing"]].seen_from if face == "moulded" else face
            visit = next(one for one in found["sessions"] if one["id"] == session)
            visit["read_from"] = OTHER[seen]
    return found


def line_for(plug: dict[str, Any], cavity: str, own: dict[str, Any]) -> dict[str, Any]:
    """The line of a cavity for the same cars as `own`; a new one that says nothing if need be."""
    lines = [pin for pin in plug["pins"] if str(pin["cavity"]) == cavity]
    if not lines:
        name = int(cavity) if cavity.isdecimal() else cavity
        lines = [{"cavity": name, "function": "unknown"}]
        plug["pins"] += lines
    same = [pin for pin in lines if pin.get("only_if") == own.get("only_if")]
    return (same or lines)[0]


def grades(car: Vehicle) -> dict[Any, Any]:
    """Band and score of every line that has a function."""
    return {
        (plug.id, pin.cavity, pin.only_if, pin.function): (grade.band, round(grade.score, 9))
        for plug in car.plugs
        for pin in plug.pins
        if pin.function != "unknown"
        for grade in [grade_pin(car, pin, SHELF.defaults)]
    }


def plans(car: Vehicle) -> list[dict[str, Any]]:
    """The plan with every converter that serves the car."""
    return [
        plan_as_json(make_plan(car, device, defaults=SHELF.defaults))
        for device in SHELF.converters.values()
        if serves(car, device, SHELF.defaults)[0]
    ]


def read(data: dict[str, Any]) -> Vehicle:
    return turned(parse_vehicle(data), SHELF.housings)


@pytest.mark.parametrize(("name", "session"), VISITS)
def test_a_visit_that_says_the_other_face_counts_as_if_counted_on_the_plugs(name, session):
    own, other = read(RECORDS[name]), read(filed(RECORDS[name], session, said=True))
    assert other.face_refusals == ()
    assert grades(other) == grades(own)
    assert plans(other) == plans(own)


@pytest.mark.parametrize(("name", "session"), VISITS)
def test_a_visit_that_does_not_say_so_is_recognised_with_both_drawings(name, session):
    data = filed(RECORDS[name], session, said=False)
    at = next(i for i, one in enumerate(data["sessions"]) if one["id"] == session)
    found = list(session_mirrored.check(read(data), SHELF))
    assert {fault.path for fault in found} <= {("sessions", at, "read_from")}
    assert bool(found) is ((name, session) not in FITS_FROM_BOTH)
    for fault in found:
        assert "looking into the open face" in fault.drawing[0]
        assert "[" in "".join(fault.drawing)


def test_no_shipped_visit_is_called_mirrored():
    for record in RECORDS.values():
        assert list(session_mirrored.check(read(record), SHELF)) == []
    assert len(VISITS) > 40 and len(FITS_FROM_BOTH) < len(VISITS) / 4


TANSY = "ostrel-tansy-2017-hatch-base"


def book_with(folder: Path, data: dict[str, Any]) -> Path:
    """The shipped book with another record of one car."""
    shutil.copytree(PINOUTS, folder)
    car_path(folder, TANSY).write_text(json.dumps(data), "utf-8")
    shutil.rmtree(folder / "visits" / TANSY, ignore_errors=True)
    return folder


def tidy(data: dict[str, Any]) -> dict[str, Any]:
    """The record without lists that became empty, and no line for what is called empty."""
    for plug in data["plugs"]:
        named = {str(pin["cavity"]) for pin in plug["pins"]}
        plug["empty"] = [one for one in plug.get("empty", ()) if str(one) not in named]
        for key in ("empty", "readings"):
            for part in (plug, *plug["pins"]):
                if part.get(key) == []:
                    del part[key]
    return data


def test_find_and_plan_say_the_same_as_of_the_plugs_own_face(tmp_path):
    book = book_with(tmp_path / "book", tidy(filed(RECORDS[TANSY], "s3", said=True)))
    for command in (("find", "tansy", "switched"), ("plan", TANSY, "-c", "cvn-2a")):
        own = loombook(*command, "-b", PINOUTS)
        assert own.exit_code == 0
        assert loombook(*command, "-b", book).output == own.output
    shown = loombook("show", TANSY, "-b", book).output
    assert "PIN123" not in shown and "PIN124" not in shown


def test_a_visit_that_cannot_be_turned_is_refused_with_both_drawings(tmp_path):
    bare = deepcopy(RECORDS[TANSY])
    next(one for one in bare["sessions"] if one["id"] == "s3")["read_from"] = "mating_side"
    book = book_with(tmp_path / "book", bare)
    done = loombook("check", book)
    refused = done.output.partition("PIN124")[2]
    assert done.exit_code == 1
    assert 'visit "s3" counted plug "A" looking into the open face' in refused
    assert "latch at the top" in refused.partition("docs:")[0]
    assert "latch at the top" in loombook("show", TANSY, "-b", book).output
    found = json.loads(loombook("check", book, "--format", "json").output)["findings"]
    assert any(one["rule"] == "PIN124" and len(one["drawing"]) > 3 for one in found)


def test_the_page_says_what_was_not_counted_beside_both_drawings(tmp_path):
    bare = deepcopy(RECORDS[TANSY])
    next(one for one in bare["sessions"] if one["id"] == "s3")["read_from"] = "mating_side"
    bare["accept"] = [{"rule": "PIN124", "reason": "looked at on Monday", "who": "third-bay"}]
    book, site = book_with(tmp_path / "book", bare), tmp_path / "site"
    done = loombook("build", book, "--output", site)
    assert done.exit_code == 0, done.output
    page = (site / "vehicles" / f"{TANSY}.html").read_text("utf-8")
    section = page.partition("Not counted:")
    assert "<svg" in section[0].rpartition('<section class="plug"')[2]
    assert "the visit s3 by" in section[2] and "no line of its own" in section[2]

"""Two records of one car as one: nothing is lost, nothing is chosen, and the grades are the sum."""

from __future__ import annotations

import copy
import json
import random
import shutil
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook
from shipped_cars import car_data

from builder.book import open_book
from builder.editing.writing import write_record
from builder.loading import load_text
from builder.pipeline.changing.merging import Merged, merged_records, write_merged
from builder.pipeline.changing.merging_scopes import one_scope
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.every_vehicle import vehicles
from builder.proof.grading.grade import grade_pin

CARS = {
    "cindral-teasel-2023": "cindral",
    "brantmoor-leto-2019-wagon-mid": "brantmoor",
    "wexlow-quern-2016-early": "wexlow",
}
SECOND = "second-record"
Data = dict[str, Any]


def shipped(car: str) -> Data:
    return car_data(car)


def loaded(path: Path) -> Data:
    data: Data | None = load_text(path.read_bytes(), path.name).data
    assert data is not None
    return data


def book_of(folder: Path, *records: Data) -> Path:
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, folder / kind)
    for data in records:
        place = folder / "vehicles" / str(data["make"]).lower() / f"{data['id']}.yaml"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(write_record(data, "vehicle"), "utf-8")
    return folder


def with_own_questions(data: Data) -> Data:
    """Sisters that are not in the small book would be names that lead nowhere."""
    return {**data, "how_to_tell": []}


def split(data: Data, seed: int) -> tuple[Data, Data]:
    """One record as two people might have written it: each reading, claim and visit in one."""
    dice = random.Random(seed)
    first, second = copy.deepcopy(data), copy.deepcopy(data)
    second |= {"id": SECOND, "variant": "as the second shop calls it"}
    own = {each["id"]: dice.random() < 0.5 for each in data["sessions"]}
    own[data["sessions"][0]["id"]] = True
    for record, wanted in ((first, True), (second, False)):
        record["sessions"] = [each for each in record["sessions"] if own[each["id"]] is wanted]
        for holder in holders(record):
            kept = [r for r in holder.get("readings", []) if own[r["session"]] is wanted]
            holder.pop("readings", None)
            if kept:
                holder["readings"] = kept
    for plug in second["plugs"]:
        plug["pins"] = [pin for pin in plug["pins"] if "readings" in pin] or plug["pins"][:1]
    return first, second


def holders(data: Data) -> Iterator[Data]:
    for plug in data["plugs"]:
        yield from plug["pins"]
    yield from data.get("fuse_positions", [])


def facts(data: Data) -> Counter[str]:
    """Each reading with its place, each claim, each visit: what must not get lost."""
    found: Counter[str] = Counter()
    for plug in data["plugs"]:
        for pin in plug["pins"]:
            for key in ("readings", "claims"):
                found.update(said(plug["id"], pin["cavity"], each) for each in pin.get(key, []))
    for each in data.get("fuse_positions", []):
        found.update(said(each["position"], "", reading) for reading in each.get("readings", []))
    found.update(said("visit", each["id"], each) for each in data["sessions"])
    return found


def said(*what: Any) -> str:
    return json.dumps(what, sort_keys=True, default=str)


def labels(book: Path, car: str) -> dict[str, str]:
    opened = open_book(book)
    (vehicle,) = [vehicle for _, vehicle in vehicles(opened) if vehicle.id == car]
    return {
        f"{plug.id}.{pin.cavity}": grade_pin(vehicle, pin, opened.defaults).label
        for plug in vehicle.plugs
        for pin in plug.pins
    }


def written(book: Path, car: str, second: str = SECOND) -> Merged:
    merged = merged_records(open_book(book), car, second)
    assert merged.differences == ()
    write_merged(merged)
    return merged


def read_back(book: Path, car: str) -> Data:
    (path,) = (book / "vehicles").rglob(f"{car}.yaml")
    return loaded(path)


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("seed", [1, 2])
def test_a_record_that_was_split_is_merged_into_itself(tmp_path: Path, car: str, seed: int):
    whole = with_own_questions(shipped(car))
    first, second = split(whole, seed)
    assert facts(first) != facts(whole)
    before = labels(book_of(tmp_path / "whole", whole), car)
    book = book_of(tmp_path / "two", first, second)
    written(book, car)
    back = read_back(book, car)
    assert facts(back) == facts(whole)
    assert labels(book, car) == before
    assert not list(book.rglob(f"{SECOND}.yaml"))
    assert "# from second-record" in next(book.rglob(f"{car}.yaml")).read_text("utf-8")


def test_the_finding_proposes_the_merge_and_is_gone_after_it(tmp_path: Path):
    car = "cindral-teasel-2023"
    book = book_of(tmp_path, *split(with_own_questions(shipped(car)), 3))
    (found,) = [f for f in check_book(open_book(book)).findings if f.rule_id == "PIN130"]
    assert f"loombook merge {car} {SECOND}" in found.help
    shown = loombook("merge", car, SECOND, "-b", book)
    assert shown.exit_code == 0 and "nothing is written yet" in shown.output
    assert list(book.rglob(f"{SECOND}.yaml"))
    done = loombook("merge", car, SECOND, "-b", book, "--write")
    assert done.exit_code == 0, done.output
    checked = check_book(open_book(book))
    assert not [f for f in checked.findings if f.rule_id in ("PIN130", "BOK109") or f.fails_check]
    old = loombook("show", SECOND, "-b", book)
    assert old.exit_code == 0 and car in old.output


def test_merging_again_after_a_kill_completes_it(tmp_path: Path):
    car = "cindral-teasel-2023"
    first, second = split(with_own_questions(shipped(car)), 4)
    book = book_of(tmp_path, first, second)
    (gone,) = book.rglob(f"{SECOND}.yaml")
    text = gone.read_text("utf-8")
    written(book, car)
    once = read_back(book, car)
    gone.write_text(text, "utf-8")  # as if the power had gone before it was deleted
    again = merged_records(open_book(book), car, SECOND)
    assert not again.taken and again.differences == ()
    write_merged(again)
    assert read_back(book, car) == once and not gone.exists()
    settings = yaml.safe_load((book / "book.yaml").read_text("utf-8"))
    assert settings["renamed"] == [{"kind": "vehicle", "was": SECOND, "now": car}]


def test_what_both_say_differently_is_named_and_nothing_written(tmp_path: Path):
    car = "cindral-teasel-2023"
    first, second = split(with_own_questions(shipped(car)), 5)
    pin = second["plugs"][0]["pins"][0]
    pin["function"] = "ground" if pin["function"] != "ground" else "constant"
    second["radio"]["data_wake"] = "no" if first["radio"]["data_wake"] == "yes" else "yes"
    book = book_of(tmp_path, first, second)
    before = {path: path.read_bytes() for path in book.rglob("*.yaml")}
    done = loombook("merge", car, SECOND, "-b", book, "--write")
    assert done.exit_code == 1
    assert "radio.data_wake: " in done.output and ".function: " in done.output
    assert {path: path.read_bytes() for path in book.rglob("*.yaml")} == before


def test_visits_of_one_name_get_two_and_their_readings_follow(tmp_path: Path):
    car = "cindral-teasel-2023"
    first, second = split(with_own_questions(shipped(car)), 6)
    if not second["sessions"]:
        pytest.fail("the split leaves the second record no visit")
    old, taken = second["sessions"][0]["id"], first["sessions"][0]["id"]
    second["sessions"][0]["id"] = taken
    for holder in holders(second):
        for reading in holder.get("readings", []):
            reading["session"] = taken if reading["session"] == old else reading["session"]
    count = sum(r["session"] == taken for h in holders(second) for r in h.get("readings", []))
    book = book_of(tmp_path, first, second)
    written(book, car)
    back = read_back(book, car)
    assert [each["id"] for each in back["sessions"]].count(taken) == 1
    new = f"{taken}-2"
    assert count == sum(r["session"] == new for h in holders(back) for r in h.get("readings", []))


def test_what_the_first_leaves_open_comes_from_the_second(tmp_path: Path):
    car = "cindral-teasel-2023"
    first, second = split(with_own_questions(shipped(car)), 7)
    known = second["radio"]["open_load_check"]
    first["radio"]["open_load_check"], first["safety"]["restraint_wait_min"] = "unknown", "unknown"
    second["radio"]["open_load_check"] = "yes" if known == "unknown" else known
    second["safety"]["restraint_wait_min"] = 7
    book = book_of(tmp_path, first, second)
    written(book, car)
    back = read_back(book, car)
    assert back["radio"]["open_load_check"] == second["radio"]["open_load_check"]
    assert back["safety"]["restraint_wait_min"] == 7


def test_comments_of_both_stay(tmp_path: Path):
    car = "cindral-teasel-2023"
    book = book_of(tmp_path, *split(with_own_questions(shipped(car)), 8))
    (place,), (gone,) = book.rglob(f"{car}.yaml"), book.rglob(f"{SECOND}.yaml")
    for path, remark in ((place, "seen by both of us"), (gone, 'the "grey" one # was dark')):
        path.write_text(path.read_text("utf-8") + f"# {remark}\n", "utf-8")
    written(book, car)
    text = place.read_text("utf-8")
    assert "seen by both of us" in text and 'the "grey" one # was dark' in text
    assert "variant: as the second shop calls it" in text


def test_records_that_tell_each_other_apart_are_not_merged(tmp_path: Path):
    car = "cindral-teasel-2023"
    first, second = split(with_own_questions(shipped(car)), 9)
    answers = [{"answer": "no", "means": "this"}, {"answer": "yes", "means": SECOND}]
    first["how_to_tell"] = [{"question": "Is there a box?", "cost": "look", "answers": answers}]
    done = loombook("merge", car, SECOND, "-b", book_of(tmp_path, first, second))
    assert done.exit_code == 2 and f"says that {SECOND} is another car" in done.output


BASE: Data = {
    "year_from": 2016, "year_to": 2018, "bodies": ["hatch"], "markets": ["all"],
    "drive_side": "left", "trims": ["base"], "options_any": [], "options_none": [],
    "radios": ["kr-210"],
}  # fmt: skip


@pytest.mark.parametrize(
    ("other", "grown"),
    [
        ({}, {}),
        ({"year_from": 2018, "year_to": 2020}, {"year_to": 2020}),
        ({"year_from": 2019, "year_to": 2020}, {"year_to": 2020}),
        ({"year_from": 2020, "year_to": 2021}, None),  # nobody knows a car of 2019
        ({"trims": ["base", "sport"]}, {"trims": ["base", "sport"]}),
        ({"trims": ["all"], "year_to": 2020}, {"trims": ["all"], "year_to": 2020}),
        ({"trims": ["sport"], "year_to": 2020}, None),  # nobody knows a base of 2020
        ({"year_from": 2017, "year_to": 2017}, {}),
        ({"radios": ["unknown"]}, {}),
        ({"drive_side": "right"}, {"drive_side": "both"}),
        ({"options_any": ["tow-pack"]}, {}),
        ({"build_to": "2017-03"}, {}),
    ],
)
def test_the_scope_of_both_holds_no_car_that_neither_is_about(other: Data, grown: Data | None):
    steps, disputed = one_scope({"scope": BASE}, {"scope": {**BASE, **other}})
    if grown is None:
        assert steps == [] and [each.place for each in disputed] == ["scope"]
    else:
        assert {step.path[-1]: step.what for step in steps} == grown and disputed == []

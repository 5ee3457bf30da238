"""Visits in files of their own count as if they were typed in the record of their vehicle."""

from __future__ import annotations

import json
import re
import shutil
from collections import Counter
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import pytest
from shipped_book import PINOUTS, loombook
from shipped_cars import typed_in_one
from visited_book import Data, data_of, visit_files, visited_book, write

from builder.book import open_book
from builder.findings import Finding
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import described_vehicle, grades_data
from builder.pipeline.answers.packs import made_packs
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.planning.plan_json import plan_as_json
from builder.proof.faces.poses import mirror
from builder.proof.pin_proof import prove

TANSY = "ostrel-tansy-2017-hatch-base"
BRINDLE, GANNET, ROOK = "ostrel-brindle-2020", "torvane-gannet-2011-van", "torvane-rook-2016-pickup"
FIRST = "quayside-fitters-2023-10-05-marrow"
Change = Callable[[Data], object]


@pytest.fixture(scope="module")
def all_apart(tmp_path_factory: pytest.TempPathFactory) -> CheckedBook:
    return check_book(open_book(visited_book(tmp_path_factory.mktemp("apart") / "book")))


@pytest.fixture(scope="module")
def typed(tmp_path_factory: pytest.TempPathFactory) -> CheckedBook:
    book = shutil.copytree(PINOUTS, tmp_path_factory.mktemp("typed") / "book")
    typed_in_one(book)
    return check_book(open_book(book))


def counted(checked: CheckedBook) -> dict[str, ReadRecord]:
    files = [f for f in checked.book.files() if f.kind == "vehicle" and not f.is_template]
    return {file.path.stem: as_counted(read_record(file), checked.shelf) for file in files}


def answers(checked: CheckedBook, read: ReadRecord) -> Any:
    vehicle, shelf = read.record, checked.shelf
    assert isinstance(vehicle, Vehicle)
    plans = [plan_as_json(one.plan) for one in plans_of(read, vehicle, shelf, checked.gate())]
    return grades_of(checked, read), plans


def grades_of(checked: CheckedBook, read: ReadRecord) -> Any:
    assert isinstance(read.record, Vehicle)
    proofs = prove(read.record, checked.shelf.defaults, checked.shelf.housings)
    return grades_data(read.record, proofs)


def test_grades_plans_and_packs_are_those_of_one_file(typed, all_apart):
    whole, apart = counted(typed), counted(all_apart)
    assert apart.keys() == whole.keys()
    for name, read in whole.items():
        assert unplaced(answers(all_apart, apart[name])) == unplaced(answers(typed, read)), name
    packs = {made.pack.job: unplaced(made.as_data()) for made in made_packs(typed)}
    assert {made.pack.job: unplaced(made.as_data()) for made in made_packs(all_apart)} == packs


def unplaced(answer: Any) -> str:
    """An answer as text, without where in which file a finding stands."""
    text = json.dumps(answer, sort_keys=True, default=str)
    return re.sub(r'[^" ]*\.yaml[0-9:]*', "FILE", text)


def test_the_data_of_a_vehicle_are_those_of_one_file(typed, all_apart):
    whole, apart = counted(typed), counted(all_apart)
    for name, read in whole.items():
        assert readings_of(apart[name].data) == readings_of(read.data), name
        assert in_no_order(apart[name].data["sessions"]) == in_no_order(read.data["sessions"])


def readings_of(data: Data) -> Any:
    return [
        [(pin["cavity"], in_no_order(pin.get("readings", ()))) for pin in plug["pins"]]
        for plug in data["plugs"]
    ]


def in_no_order(said: Iterable[Data]) -> list[str]:
    """What was measured as texts: neither the entries nor their keys have an order that counts."""
    return sorted(json.dumps(one, sort_keys=True, default=str) for one in said)


def test_what_rules_find_is_the_same_and_stands_where_it_was_typed(typed, all_apart):
    assert said(all_apart) == said(typed)
    of_visits = [f for f in all_apart.findings if "/visits/" in f.file]
    assert len(of_visits) > 3
    for finding in of_visits:
        line = Path(finding.file).read_text("utf-8").splitlines()[finding.line - 1]
        assert line.strip() not in ("{", "}"), (finding, line)


def said(checked: CheckedBook) -> Counter[tuple[str, str]]:
    return Counter((f.rule_id, f.message) for f in checked.findings)


def found_with(tmp_path: Path, change: Change, car: str = BRINDLE) -> list[Finding]:
    """What the check finds of a visit of a car after a change of its data."""
    book = visited_book(tmp_path / "book", car)
    path = visit_files(book, car)[0]
    data = data_of(path)
    change(data)
    write(path, data)
    return [f for f in check_book(open_book(book)).findings if f.file.endswith(path.name)]


FAULTS: dict[str, tuple[Change, str, str]] = {
    "no such plug": (lambda d: d["places"][0].update(plug="Z"), "BOK127", 'no plug "Z"'),
    "no such cavity": (lambda d: d["places"][0].update(cavity=99), "BOK127", "not describe A.99"),
    "no such session": (
        lambda d: d["places"][0]["readings"][0].update(session="qg"), "BOK127", "has no part",
    ),
    "another vehicle": (lambda d: d.update(vehicle=ROOK), "BOK126", "stands in the folder of"),
    "another contributor": (
        lambda d: d["sessions"].append({**d["sessions"][0], "id": "x", "by": "tinroof-sound"}),
        "BOK128", "says by tinroof-sound",
    ),
    "another day": (
        lambda d: d["sessions"].append({**d["sessions"][0], "id": "x", "date": "2024-01-01"}),
        "BOK128", "says date 2024-01-01",
    ),
    "another car": (
        lambda d: d["sessions"].append({**d["sessions"][0], "id": "x", "car": {"tag": "zz"}}),
        "BOK128", "says car zz",
    ),
    "another name": (lambda d: d.update(id="one-visit"), "BOK101", "is not the file name"),
    "a handle of nobody": (lambda d: d["sessions"][0].update(by="nobody-known"), "EVD110", ""),
    "a day that never was": (lambda d: d["sessions"][0].update(date="2023-02-30"), "SCH106", ""),
    "an odd figure": (
        lambda d: d["places"][0]["readings"][0].update(battery_v=3.0), "MET", "",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_of_a_visit_is_found_in_its_file(tmp_path, name):
    change, rule, words = FAULTS[name]
    found = [f for f in found_with(tmp_path, change) if f.rule_id.startswith(rule)]
    assert found, name
    text = Path(found[0].file).read_text("utf-8").splitlines()
    assert words in f"{found[0].message} {found[0].help}"
    assert found[0].line <= len(text)


def test_a_place_that_is_not_described_is_lost_alone(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    path = book / "visits" / BRINDLE / f"{FIRST}.yaml"
    data = data_of(path)
    data["places"][0]["cavity"] = 44
    write(path, data)
    checked = check_book(open_book(book))
    now, before = counted(checked)[BRINDLE], counted(check_book(open_book(PINOUTS)))[BRINDLE]
    lost = len(data["places"][0]["readings"])
    assert number_of_readings(now) == number_of_readings(before) - lost
    faults = [f for f in checked.findings if f.rule_id == "BOK127"]
    assert len(faults) == 1 < lost  # told once for all that was read there
    assert all(f.file.endswith(path.name) and f.fails_check for f in faults)


def test_readings_of_a_part_that_is_not_there_are_told_once(tmp_path):
    def change(data):
        for reading in data["places"][0]["readings"]:
            reading["session"] = "qg"

    found = [f for f in found_with(tmp_path, change) if f.rule_id == "BOK127"]
    text = Path(found[0].file).read_text("utf-8")
    assert len(found) == 1 < text.count('"session": "qg"')


def number_of_readings(read: ReadRecord) -> int:
    assert isinstance(read.record, Vehicle)
    return sum(len(pin.readings) for plug in read.record.plugs for pin in plug.pins)


def test_a_visit_of_a_vehicle_that_is_not_there_is_told(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    (book / "visits" / BRINDLE).rename(book / "visits" / "ostrel-brindel")
    faults = [f for f in check_book(open_book(book)).findings if f.rule_id == "BOK126"]
    assert len(faults) == 2
    assert all(f"move it to visits/{BRINDLE}" in f.help for f in faults)


def test_a_visit_whose_id_another_vehicle_has_too_is_told_of_and_no_site_is_tried(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    first = book / "visits" / BRINDLE / f"{FIRST}.yaml"
    second = book / "visits" / ROOK / first.name
    write(second, {**data_of(first), "vehicle": ROOK, "places": []})
    found = [f for f in check_book(open_book(book)).findings if f.rule_id == "BOK102"]
    assert [(f.file, f.fails_check) for f in found] == [(str(second), True)]
    assert f'id "{FIRST}" is the id of' in found[0].message and str(first) in found[0].message
    assert "replaces" not in found[0].help and "rename the later file" in found[0].help
    done = loombook("build", "-b", book, "-o", tmp_path / "site")
    assert done.exit_code == 1 and "BOK102" in done.output, done.output
    assert "would stand at" not in done.output and not (tmp_path / "site").exists()
    second.unlink()
    assert all(f.rule_id != "BOK102" for f in check_book(open_book(book)).findings)


def test_a_broken_visit_closes_the_plans_of_its_vehicle(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    path = book / "visits" / BRINDLE / f"{FIRST}.yaml"
    assert plan_kinds(book) & {"tap_plan", "probe_plan"}
    path.write_text(path.read_text("utf-8").replace('"state"', '"stat"', 1), "utf-8")
    assert plan_kinds(book) == {"no_plan"}


def plan_kinds(book: Path) -> set[str]:
    checked = check_book(open_book(book))
    read = counted(checked)[BRINDLE]
    assert isinstance(read.record, Vehicle)
    plans = plans_of(read, read.record, checked.shelf, checked.gate())
    return {decided.plan.kind for decided in plans}


def test_findings_in_visits_are_told_of_their_vehicle(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    path = book / "visits" / BRINDLE / f"{FIRST}.yaml"
    data = data_of(path)
    data["places"][0]["cavity"] = 44
    write(path, data)
    told = described_vehicle(open_book(book), BRINDLE).findings
    assert any(f.rule_id == "BOK127" for f in told)


def test_a_withdrawn_visit_counts_no_longer(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    path = book / "visits" / BRINDLE / f"{FIRST}.yaml"
    said = {"date": "2024-06-01", "because": "the meter was found broken"}
    write(path, {**data_of(path), "withdrawn": said})
    read = counted(check_book(open_book(book)))[BRINDLE]
    assert isinstance(read.record, Vehicle)
    assert {session.by for session in read.record.sessions} == {"tolling-lane-garage"}
    assert [visit.id for visit in read.record.visits if visit.withdrawn] == [FIRST]


def test_a_visit_that_was_turned_counts_as_if_counted_right(tmp_path):
    book = visited_book(tmp_path / "book", ROOK)
    before = readings_of(counted(check_book(open_book(book)))[ROOK].data)
    housings = check_book(open_book(book)).shelf.housings
    car = data_of(next((book / "vehicles").rglob(f"{ROOK}.yaml")))
    shells = {plug["id"]: housings[plug["housing"]] for plug in car["plugs"]}
    for path in visit_files(book, ROOK):
        data = data_of(path)
        for place in data["places"]:
            if "plug" in place:
                images = mirror(shells[place["plug"]])
                place["cavity"] = as_typed(images[str(place["cavity"])])
                for reading in place["readings"]:
                    if re.fullmatch("[0-9]+", str(reading.get("against", ""))):
                        reading["against"] = as_typed(images[str(reading["against"])])
        write(path, data)
    filed = readings_of(counted(check_book(open_book(book)))[ROOK].data)
    assert filed != before
    for path in visit_files(book, ROOK):
        write(path, {**data_of(path), "turned": [{"date": "2024-06-01"}]})
    turned = check_book(open_book(book))
    assert readings_of(counted(turned)[ROOK].data) == before
    assert [f for f in turned.findings if f.rule_id in ("PIN123", "PIN124", "BOK127")] == []
    for path in visit_files(book, ROOK):
        again = [{"date": "2024-06-01"}, {"date": "2024-06-02"}]
        write(path, {**data_of(path), "turned": again})
    assert readings_of(counted(check_book(open_book(book)))[ROOK].data) == filed


def as_typed(cavity: str) -> int | str:
    return int(cavity) if cavity.isdigit() else cavity


def test_a_private_visit_counts_for_the_shop_alone(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    (book / "private" / "visits").mkdir(parents=True)
    (book / "visits" / BRINDLE).rename(book / "private" / "visits" / BRINDLE)
    text = (book / "book.yaml").read_text("utf-8")
    roots = "roots: [{path: ., visibility: shared}, {path: private, visibility: private}]"
    (book / "book.yaml").write_text(text.replace('roots: ["."]', roots), "utf-8")
    own, public = open_book(book), open_book(book, public=True)
    assert number_of_readings(counted(check_book(own))[BRINDLE]) > 0
    assert number_of_readings(counted(check_book(public))[BRINDLE]) == 0
    assert own.any_private({("vehicle", BRINDLE)})
    assert not own.any_private({("vehicle", ROOK)})


def test_visits_of_a_renamed_vehicle_are_found_by_its_old_name(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    car, new = next((book / "vehicles").rglob(f"{BRINDLE}.yaml")), "ostrel-brindle-2020-van"
    write(car.with_name(f"{new}.yaml"), {**data_of(car), "id": new})
    car.unlink()
    text = (book / "book.yaml").read_text("utf-8")
    line = f"renamed:\n  - {{kind: vehicle, was: {BRINDLE}, now: {new}}}\n"
    (book / "book.yaml").write_text(text.replace("renamed:\n", line), "utf-8")
    checked = check_book(open_book(book))
    whole = counted(check_book(open_book(PINOUTS)))[BRINDLE]
    assert number_of_readings(counted(checked)[new]) == number_of_readings(whole)
    assert {f.rule_id for f in checked.findings if "/visits/" in f.file} >= {"BOK108"}


def test_a_job_is_begun_with_what_its_cars_visits_say(tmp_path):
    book = visited_book(tmp_path / "book", TANSY)
    done = loombook("begin", "tansy-subwoofer", "--by", "alder-pit-audio", "-b", book)
    assert done.exit_code == 0, done.output
    frozen = json.loads((book / "jobs" / "tansy-subwoofer.begun.json").read_text("utf-8"))
    (car,) = [one for one in frozen["records"] if one["kind"] == "vehicle"]
    assert "session: s1" in car["text"] and "session: s3" in car["text"]
    packs = {made.pack.job: made.planned.kind for made in made_packs(check_book(open_book(book)))}
    for path in visit_files(book, TANSY):
        path.unlink()
    left = {made.pack.job: made.planned.kind for made in made_packs(check_book(open_book(book)))}
    assert packs["tansy-subwoofer"] == left["tansy-subwoofer"] == "tap_plan"
    assert packs["tansy-two-coils"] == "tap_plan" and left["tansy-two-coils"] != "tap_plan"


def test_a_table_of_a_car_leaves_its_visits_where_they_are(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    before = number_of_readings(counted(check_book(open_book(book)))[BRINDLE])
    table = tmp_path / "car.csv"
    assert loombook("new", "table", table, "--of", BRINDLE, "-b", book).exit_code == 0
    done = loombook("import", table, "--into", book, "--replace", "--as-is")
    assert number_of_readings(counted(check_book(open_book(book)))[BRINDLE]) == before, done.output


def test_two_visits_may_name_their_parts_alike(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    before = number_of_readings(counted(check_book(open_book(book)))[BRINDLE])
    for path in visit_files(book, BRINDLE):
        text = path.read_text("utf-8")
        for old in ('"qf"', '"tl"'):
            text = text.replace(f": {old}", ': "s1"')
        path.write_text(text, "utf-8")
    checked = check_book(open_book(book))
    read = counted(checked)[BRINDLE]
    assert isinstance(read.record, Vehicle)
    ids = [session.id for session in read.record.sessions]
    assert ids == ["s1", "tolling-lane-garage-2024-02-27-blue-door-s1"]
    assert [session["id"] for session in read.data["sessions"]] == ids
    assert number_of_readings(read) == before
    pins = [pin for plug in read.data["plugs"] for pin in plug["pins"]]
    assert {r["session"] for pin in pins for r in pin.get("readings", ())} == set(ids)
    assert [f for f in checked.findings if f.fails_check] == []


def test_visits_of_two_records_that_are_merged_are_those_of_the_one(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    car, other = next((book / "vehicles").rglob(f"{BRINDLE}.yaml")), f"{BRINDLE}-b"
    write(car.with_name(f"{other}.yaml"), {**data_of(car), "id": other})
    path = visit_files(book, BRINDLE)[0]
    write(book / "visits" / other / path.name, {**data_of(path), "vehicle": other})
    path.unlink()
    done = loombook("merge", BRINDLE, other, "--write", "-b", book)
    assert done.exit_code == 0, done.output
    whole = counted(check_book(open_book(PINOUTS)))[BRINDLE]
    merged = counted(check_book(open_book(book)))[BRINDLE]
    assert number_of_readings(merged) == number_of_readings(whole)


NEW = (
    *("--vehicle", GANNET, "--by", "kesta-dunn", "--date", "2025-03-02", "--tag", "moss-9"),
    *("--read-from", "wire_side"),
)


def test_a_new_visit_is_asked_for_and_written(tmp_path):
    book = visited_book(tmp_path / "book", BRINDLE)
    car = data_of(next((book / "vehicles").rglob(f"{GANNET}.yaml")))
    cavity = car["plugs"][0]["pins"][0]["cavity"]
    line = f"A.{cavity} run 12.31 V battery 12.4 load 1a"
    done = loombook("new", "visit", *NEW, "--reading", line, "-b", book)
    assert done.exit_code == 0, done.output
    (path,) = (book / "visits" / GANNET).iterdir()
    assert re.fullmatch("kesta-dunn-2025-03-02-moss-9-[0-9a-f]{6}", path.stem)
    data = data_of(path)
    assert data["places"] == [
        {
            "plug": "A",
            "cavity": cavity,
            "readings": [
                {"session": path.stem, "state": "run", "load": "1a", "quantity": "dc_v"}
                | {"value": 12.31, "battery_v": 12.4}
            ],
        }
    ]
    assert number_of_readings(counted(check_book(open_book(book)))[GANNET]) == 1
    again = loombook("new", "visit", *NEW, "--reading", line, "-b", book)
    assert again.exit_code != 0
    assert "exists already" in again.output


@pytest.mark.parametrize(
    ("line", "words"), [("12.3 V run", "begins with no plug"), ("A.1 rum 12 V", "run")]
)
def test_a_line_of_a_new_visit_that_is_no_reading_is_told(tmp_path, line, words):
    book = visited_book(tmp_path / "book", BRINDLE)
    done = loombook("new", "visit", *NEW, "--reading", line, "-b", book)
    assert done.exit_code != 0
    assert words in done.output

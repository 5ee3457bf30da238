"""`mend --visits`: visits move out of a vehicle's record as they were typed, and count the same."""

from __future__ import annotations

import json
import re
import shutil
from itertools import combinations
from pathlib import Path
from textwrap import indent

import pytest
import yaml
from evidence_book import BRINDLE, TANSY, small_book, texts, vehicle_file
from shipped_book import PINOUTS, ROOT, loombook
from shipped_cars import CARS, car_path, copy_car, typed_in_one
from visited_book import Data, data_of, taken_apart, visit_files, write

from builder.book import open_book
from builder.editing import UneditableError, insert_item
from builder.editing.visit_moving import moved_visits
from builder.loading import load_text
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.visit_text import visit_text

KEPT = ROOT / "tests" / "records" / "typed_in_one" / f"{BRINDLE}.yaml"
"""A record of before visits had files, as people typed it."""
TEASEL = "cindral-teasel-2023"
COMMENT = "# the leads were swapped and put right"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Two cars that hold their visits: one kept as it was typed, into the other they are put."""
    made = small_book(tmp_path / "book")
    typed_in_one(made, TANSY)
    shutil.copy(KEPT, vehicle_file(made, BRINDLE))
    shutil.rmtree(made / "visits" / BRINDLE, ignore_errors=True)
    return made


def said(book: Path) -> list[tuple[str, str]]:
    return sorted((f.rule_id, f.message) for f in check_book(open_book(book)).findings)


def test_visits_are_moved_and_everything_is_found_as_before(book):
    before, typed = said(book), data_of(vehicle_file(book, TANSY))
    done = loombook("mend", "--visits", "-b", book)
    assert done.exit_code == 0, done.output
    assert "5 visits of 2 vehicles moved" in done.output
    assert said(book) == before
    bare, visits = taken_apart(typed)
    assert data_of(vehicle_file(book, TANSY)) == bare
    assert {path.stem: data_of(path) for path in visit_files(book, TANSY)} == visits
    assert loombook("tidy", "--check", "-b", book).exit_code == 0


def test_a_car_that_is_kept_as_it_was_typed_is_mended_word_for_word(book):
    done = loombook("mend", vehicle_file(book, BRINDLE), "-b", book)
    assert done.exit_code == 0 and "2 visits of 1 vehicle moved" in done.output, done.output
    typed = re.findall(r"{session: .*?}", KEPT.read_text("utf-8"))
    visits = "".join(path.read_text("utf-8") for path in visit_files(book, BRINDLE))
    assert len(typed) > 30 and sorted(re.findall(r"{session: .*?}", visits)) == sorted(typed)
    rest = vehicle_file(book, BRINDLE).read_text("utf-8")
    assert "{session: " not in rest and "sessions: []\n" in rest
    assert re.findall("#.*", rest) == re.findall("#.*", KEPT.read_text("utf-8"))


def test_every_shipped_car_comes_back_from_one_file(tmp_path):
    book = Path(shutil.copytree(PINOUTS, tmp_path / "book"))
    before = everything(book)
    typed_in_one(book)
    assert not list((book / "visits").glob("*/*.yaml"))
    assert [name for name in CARS if "recordings" in data_of(car_path(book, name))] == [TEASEL]
    done = loombook("mend", "-b", book)
    assert done.exit_code == 0 and len(before) > 20, done.output
    assert everything(book) == before
    assert loombook("mend", "--dry-run", "-b", book).exit_code == 0


def everything(book: Path) -> list[str]:
    """What the cars of a book and their visits say, in no order."""
    files = [*book.glob("vehicles/*/*.yaml"), *book.glob("visits/*/*.yaml")]
    return sorted(said_in_no_order(data_of(path)) for path in files)


def said_in_no_order(data: Data) -> str:
    """A record as text; the places of a visit in no order: a record's are those of its pins."""
    places = sorted(json.dumps(one, sort_keys=True) for one in data.get("places", ()))
    return json.dumps({**data, "places": places}, sort_keys=True, default=str)


def test_a_recording_moves_as_it_was_typed_with_its_visit(tmp_path):
    book = small_book(tmp_path / "book")
    copy_car(book, TEASEL)
    typed_in_one(book, TEASEL)
    car = car_path(book, TEASEL)
    text = car.read_text("utf-8")
    text = text.replace(
        "  - session: rig-three\n    file:", f"  {COMMENT}\n  - session: rig-three\n    file:"
    )
    text = text.replace("\n    method: sweep\n", "\n    method:   sweep   # by the book\n")
    assert COMMENT in text and "# by the book" in text
    second = load_text(text.encode(), "").data["recordings"][0]
    second = {**second, "session": "rig-two", "sha256": "1" * 64, "file": "two.wav"}
    text = insert_item(text, ("recordings",), second, "vehicle")
    car.write_text(text, "utf-8")
    before, recordings = said(book), data_of(car)["recordings"]
    done = loombook("mend", car, "-b", book)
    assert done.exit_code == 0 and "3 visits of 1 vehicle moved" in done.output, done.output
    assert said(book) == before and "recordings" not in data_of(car)
    moved = {path.name: path.read_text("utf-8") for path in visit_files(book, TEASEL)}
    (first,) = [text for text in moved.values() if COMMENT in text]
    assert f"  {COMMENT}\n  - session: rig-three\n" in first
    assert "\n    method:   sweep   # by the book\n" in first
    found = [
        one for path in visit_files(book, TEASEL) for one in data_of(path).get("recordings", [])
    ]
    by_sum = {one["sha256"]: one for one in found}
    assert by_sum == {one["sha256"]: one for one in recordings} and len(found) == 2


def test_a_second_time_there_is_nothing_to_move(book):
    loombook("mend", "--visits", "-b", book)
    moved = texts(book)
    done = loombook("mend", "--visits", "-b", book)
    assert done.exit_code == 0
    assert "no visit to move" in done.output
    assert texts(book) == moved


def test_a_dry_run_writes_nothing(book):
    before = texts(book)
    done = loombook("mend", "--visits", "--dry-run", "-b", book)
    assert "5 visits of 2 vehicles would be moved" in done.output
    assert texts(book) == before


def test_mend_moves_them_in_its_normal_course_and_shows_them_first(book):
    car, before = vehicle_file(book, TANSY), said(book)
    typed = car.read_text("utf-8")
    car.write_text(typed.replace("base: pink", "base: Pink", 1), "utf-8")
    there = texts(book)
    dry = loombook("mend", "--dry-run", "-b", book)
    assert dry.exit_code == 1 and texts(book) == there
    assert "1 would be mended in 1 file; nothing left to mend; 5 visits of 2 " in dry.output
    done = loombook("mend", "-b", book)
    assert done.exit_code == 0, done.output
    assert "1 mended in 1 file; nothing left to mend; 5 visits of 2 vehicles moved" in done.output
    assert said(book) == before
    assert len(visit_files(book, TANSY)) == 3 and "sessions: []\n" in car.read_text("utf-8")
    now = texts(book)
    again = loombook("mend", "-b", book)
    assert again.exit_code == 0 and "0 mended in 0 files; nothing left to mend\n" in again.output
    assert texts(book) == now
    for visit in visit_files(book, TANSY):
        added = "".join(f"+{line}\n" for line in visit.read_text("utf-8").splitlines())
        assert f"--- /dev/null\n+++ b/{visit}\n" in dry.output and added in dry.output


def test_a_record_that_is_broken_is_told_of_once_and_stays(book):
    car = vehicle_file(book, BRINDLE)
    car.write_text(car.read_text("utf-8").replace("make: ", "maker_of: ", 1), "utf-8")
    done = loombook("mend", car, "-b", book)
    assert "left alone" not in done.output and "moved" not in done.output


def test_one_record_can_be_named(book):
    loombook("mend", "--visits", vehicle_file(book, BRINDLE), "-b", book)
    assert [path.name for path in (book / "visits").iterdir()] == [BRINDLE]


def test_comments_and_layout_go_along(book):
    path = vehicle_file(book, TANSY)
    text = path.read_text("utf-8")
    row = "          - {session: s1, state: radio_off, "
    assert text.count(row) == 1
    text = text.replace(row, f"          {COMMENT}\n{row}   ")
    text = text.replace("    date: 2023-04-18\n", "    date: 2023-04-18   # a Tuesday\n")
    text = text.replace("        readings:\n", "        readings:   # seen twice\n", 1)
    path.write_text(text, "utf-8")
    assert loombook("mend", "--visits", "-b", book).exit_code == 0
    (visit,) = [p for p in visit_files(book, TANSY) if "2023-04-18" in p.name]
    moved = visit.read_text("utf-8")
    assert f"      {COMMENT}\n      - {{session: s1, state: radio_off,    quantity: dc_v," in moved
    assert "date: 2023-04-18   # a Tuesday\n" in moved
    rest = path.read_text("utf-8")
    assert COMMENT not in rest
    assert "        # seen twice\n" in rest
    rows = [line.strip() for line in text.splitlines() if "{session: s1" in line]
    assert sorted(rows) == sorted(
        line.strip() for line in moved.splitlines() if "{session: s1" in line
    )


def test_what_was_signed_is_signed_afterwards(book):
    path = vehicle_file(book, TANSY)
    before = {name: visit_text(data_of(path), name) for name in ("s1", "s2", "s3")}
    path.with_name(f"{TANSY}.s2.sig").write_bytes(b"signed")
    loombook("mend", "--visits", "-b", book)
    found = {
        session["id"]: visit_text(data_of(visit), session["id"])
        for visit in visit_files(book, TANSY)
        for session in data_of(visit)["sessions"]
    }
    assert found == before
    (signature,) = (book / "visits" / TANSY).glob("*.sig")
    assert signature.name == "bay-four-sound-2024-10-02-plum-9.s2.sig"
    assert not list(path.parent.glob("*.sig"))


def test_what_would_count_otherwise_stays(book):
    path = vehicle_file(book, BRINDLE)
    text = path.read_text("utf-8")
    pin = data_of(path)["plugs"][0]["pins"][0]["cavity"]
    again = f"    pins:\n      - {{cavity: {pin}, function: unknown}}\n"
    path.write_text(text.replace("    pins:\n", again, 1), "utf-8")
    before = path.read_bytes()
    done = loombook("mend", "--visits", path, "-b", book)
    assert done.exit_code == 1
    assert "left alone" in done.output
    assert path.read_bytes() == before
    assert visit_files(book, BRINDLE) == []


def test_killed_between_two_files_it_goes_on(book):
    car, before = vehicle_file(book, TANSY), said(book)
    old = car.read_bytes()
    loombook("mend", "--visits", "-b", book)
    car.write_bytes(old)
    done = loombook("mend", "--visits", "-b", book)
    assert "3 visits of 1 vehicle moved" in done.output
    assert said(book) == before


def test_another_text_under_the_name_of_a_visit_is_left_alone(book):
    car = vehicle_file(book, TANSY)
    old = car.read_bytes()
    loombook("mend", "--visits", "-b", book)
    visit = visit_files(book, TANSY)[0]
    visit.write_text(visit.read_text("utf-8") + "# mine\n", "utf-8")
    car.write_bytes(old)
    done = loombook("mend", "--visits", car, "-b", book)
    assert done.exit_code == 1
    assert "exists already and says something else" in done.output
    assert car.read_bytes() == old


ROWS = [
    "{session: s1, state: run, quantity: dc_v, value: 0.0, battery_v: 12.4}",
    "{session: s2, state: run, quantity: dc_v, value: 0.1, battery_v: 12.5}",
    "{session: s3, state: run, quantity: dc_v, value: 0.2, battery_v: 12.6}",
]


@pytest.mark.parametrize("gone", [n for k in (1, 2, 3) for n in combinations((0, 1, 2), k)])
@pytest.mark.parametrize("layout", ["[{}]", "[ {} ,]", "[\n{}\n]"])
def test_any_of_the_readings_in_one_pair_of_brackets_move(gone, layout):
    listed = layout.format((",\n" if "\n" in layout else " ,").join(ROWS))
    pin = f"- {{cavity: 1, function: unknown, readings: {listed}}}"
    text = "id: car\nsessions: [{id: s1}, {id: s2}, {id: s3}]   # three\nplugs:\n  - id: A\n"
    text += f"    pins:\n{indent(pin, '      ')}\n"
    car = yaml.safe_load(text)
    names = [f"s{at + 1}" for at in gone]
    moved = moved_visits(text, {**car, "data": "invented"}, {"one": names}, "")
    rest, visit = yaml.safe_load(moved.vehicle), yaml.safe_load(moved.visits["one"])
    rows = [yaml.safe_load(row) for row in ROWS]
    stay = [row for at, row in enumerate(rows) if at not in gone]
    assert rest["plugs"][0]["pins"][0].get("readings", []) == stay
    assert rest["sessions"] == [{"id": each["session"]} for each in stay]
    assert visit["places"][0]["readings"] == [rows[at] for at in gone]
    assert "# three" in moved.vehicle


def test_a_comment_that_would_be_lost_keeps_the_visits_where_they_are():
    text = (
        "id: car\nsessions:   # who\n  - id: s1\nplugs:\n  - id: A\n    pins:\n      - cavity: 1\n"
    )
    text += f"        readings: [\n          {ROWS[0]},   # twice\n        ]\n"
    data = {"data": "invented", **yaml.safe_load(text)}
    with pytest.raises(UneditableError, match="comment"):
        moved_visits(text, data, {"one": ["s1"]}, "")
    text = text.replace("   # twice", "")
    moved = moved_visits(text, data, {"one": ["s1"]}, "")
    assert "sessions: []  # who\n" in moved.vehicle


def test_where_another_visit_of_that_day_has_the_name_the_session_stands_behind_it(book):
    car, before = vehicle_file(book, TANSY), said(book)
    old = car.read_bytes()
    loombook("mend", car, "-b", book)
    visit = next(path for path in visit_files(book, TANSY) if "2023-04-18" in path.name)
    car.write_bytes(old)
    data = data_of(visit)
    for each in (*data["sessions"], *(one for p in data["places"] for one in p["readings"])):
        each["id" if "id" in each else "session"] = "later"
    write(visit, {**data, "places": []})
    done = loombook("mend", car, "-b", book)
    assert done.exit_code == 0, done.output
    assert (book / "visits" / TANSY / f"{visit.stem}-s1.yaml").is_file()
    visit.unlink()
    assert said(book) == before

"""Twenty shops measure the same car on the same day, each on a branch; git merges all of them."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from borrowing import git, repository
from evidence_book import BRINDLE, TANSY, sheet_file, small_book, vehicle_file
from shipped_book import loombook
from shipped_cars import car_data
from test_visits import counted, grades_of
from visited_book import Data, data_of, taken_apart, visit_files, write

from builder.book import open_book
from builder.pipeline.checking.book_check import check_book

SHOPS = [f"shop-{word}" for word in (
    "alder", "birch", "cedar", "dogwood", "elm", "fir", "gorse", "hazel", "iris", "juniper",
    "kelp", "larch", "maple", "nettle", "oak", "pine", "quince", "rowan", "sorrel", "thorn",
)]  # fmt: skip
DAY = "2025-06-14"


def measured(typed: Data, shop: str) -> Data:
    """What a shop measured: the shipped visit, each figure a little off, on a car of its own."""
    _, visits = taken_apart(typed)
    data = visits["quayside-fitters-2023-10-05-marrow"]
    off = 0.001 * (1 + SHOPS.index(shop))
    name = f"{shop}-{DAY}-car-{SHOPS.index(shop)}"
    session = {**data["sessions"][0], "id": name, "by": shop, "date": DAY}
    session["car"] = {**session["car"], "tag": f"car-{SHOPS.index(shop)}"}
    places = [
        {**place, "readings": [as_read(one, name, off) for one in place["readings"]]}
        for place in data["places"]
    ]
    return {**data, "id": name, "sessions": [session], "places": places}


def as_read(reading: Data, session: str, off: float) -> Data:
    value = reading["value"]
    moved = value if value == "open" else round(value + off, 3)
    return {**reading, "session": session, "value": moved}


def typed_in_one(car: Data, visits: list[Data]) -> Data:
    """The vehicle with all visits typed into it, as by hand."""
    bare, _ = taken_apart(car)
    bare["sessions"] = [session for visit in visits for session in visit["sessions"]]
    for plug in bare["plugs"]:
        for pin in plug["pins"]:
            place = (plug["id"], pin["cavity"])
            pin["readings"] = [
                reading
                for visit in visits
                for one in visit["places"]
                if (one.get("plug"), one.get("cavity")) == place
                for reading in one["readings"]
            ]
    return bare


@pytest.fixture(scope="module")
def merged(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Data]:
    """A book in which twenty branches were merged, and the car as it was typed once."""
    book = small_book(tmp_path_factory.mktemp("merged") / "book")
    typed = car_data(BRINDLE)
    write(vehicle_file(book, BRINDLE), taken_apart(typed)[0])
    shutil.rmtree(book / "visits" / BRINDLE, ignore_errors=True)
    for shop in SHOPS:
        done = loombook("new", "contributor", "--name", shop, "--since", "2024-01-01", "-b", book)
        assert done.exit_code == 0, done.output
    repository(book)
    for shop in SHOPS:
        git(book, "checkout", "-q", "-b", shop, "main")
        data = measured(typed, shop)
        write(book / "visits" / BRINDLE / f"{data['id']}.yaml", data)
        repository(book, f"a visit of {shop}")
    git(book, "checkout", "-q", "main")
    for shop in SHOPS:
        git(book, "merge", "-q", "--no-edit", shop)  # a conflict is an error of git
    return book, typed


def test_all_visits_are_there_and_nothing_is_to_mend(merged):
    book, _ = merged
    assert len(visit_files(book, BRINDLE)) == len(SHOPS)
    assert git(book, "status", "--porcelain") == ""
    checked = check_book(open_book(book))
    assert [f for f in checked.findings if f.fails_check] == []
    assert [f for f in checked.findings if f.rule_id in ("BOK126", "BOK127", "BOK128")] == []


def test_grades_are_as_if_typed_in_one_file(merged, tmp_path):
    book, typed = merged
    visits = [data_of(path) for path in visit_files(book, BRINDLE)]
    one = small_book(tmp_path / "one")
    shutil.rmtree(one / "visits" / BRINDLE)
    for shop in SHOPS:
        loombook("new", "contributor", "--name", shop, "--since", "2024-01-01", "-b", one)
    write(vehicle_file(one, BRINDLE), typed_in_one(typed, visits))
    assert graded(book) == graded(one)
    assert "proven" in {pin["grade"] for pin in graded(book)}


def graded(book: Path) -> list[dict[str, Any]]:
    checked = check_book(open_book(book))
    return grades_of(checked, counted(checked)[BRINDLE])


def test_the_same_shop_on_another_car_writes_into_another_file(merged):
    book, _ = merged
    ask = ("--vehicle", BRINDLE, "--by", SHOPS[0], "--date", DAY, "--tag", "car-99")
    done = loombook("new", "visit", *ask, "--read-from", "wire_side", "--dry-run", "-b", book)
    assert done.exit_code == 0, done.output
    assert f"id: {SHOPS[0]}-{DAY}-car-99" in done.output


ACROSS = "{plug: A, cavity: 1, state: unplugged, against: 2, quantity: ohm, value: 3.3}"
OPEN = "{plug: A, cavity: 3, state: unplugged, against: body, quantity: ohm, value: open}"
AGAIN = "{plug: A, cavity: 1, state: unplugged, against: body, quantity: ohm, value: open}"


@pytest.mark.parametrize(
    ("bays", "files"),
    [(((ACROSS,), (OPEN, AGAIN)), 2), (((ACROSS,), (ACROSS, OPEN)), 2), (((OPEN,), (OPEN,)), 1)],
    ids=["other readings", "some the same", "the same"],
)
def test_two_branches_of_one_shop_one_car_and_one_day_merge(tmp_path, bays, files):
    book = small_book(tmp_path / "book")
    loombook("new", "contributor", "--name", "third-bay", "--since", "2024-01-01", "-b", book)
    repository(book)
    for number, readings in enumerate(bays):
        git(book, "checkout", "-q", "-b", f"bay-{number}", "main")
        sheet = sheet_file(tmp_path / "sheet.yaml", f"vehicle: {TANSY}", *readings)
        done = loombook("evidence", "add", sheet, "-b", book)
        assert done.exit_code == 0, done.output
        repository(book, "a sheet")
    git(book, "checkout", "-q", "main")
    for number, _ in enumerate(bays):
        git(book, "merge", "-q", "--no-edit", f"bay-{number}")  # a conflict is an error of git
    assert git(book, "status", "--porcelain") == ""
    assert len(list((book / "visits" / TANSY).glob("third-bay-2025-11-02-zz1-*.yaml"))) == files
    done = loombook("check", book)
    assert done.exit_code == 0, done.output


def test_two_people_of_one_shop_each_begin_a_visit_and_fill_it(tmp_path):
    book = small_book(tmp_path / "book")
    ask = ("--vehicle", TANSY, "--by", "alder-pit-audio", "--date", "2026-03-04", "--tag", "zz1")
    repository(book)
    for number, row in enumerate((ACROSS, OPEN)):
        git(book, "checkout", "-q", "-b", f"bay-{number}", "main")
        done = loombook("new", "visit", *ask, "--read-from", "wire_side", "-b", book)
        assert done.exit_code == 0, done.output
        again = loombook("new", "visit", *ask, "--read-from", "wire_side", "-b", book)
        assert again.exit_code == 2 and "nothing is read in it yet: fill that one" in again.output
        (begun,) = of_day(book)
        fill(begun, row)
        repository(book, "a visit by hand")
    git(book, "checkout", "-q", "main")
    for number in range(2):
        git(book, "merge", "-q", "--no-edit", f"bay-{number}")  # a conflict is an error of git
    assert git(book, "status", "--porcelain") == ""
    assert len(of_day(book)) == 2
    read = counted(check_book(open_book(book)))[TANSY]
    ids = {session["id"] for session in read.data["sessions"] if session["date"] == "2026-03-04"}
    assert ids == {path.stem for path in of_day(book)}
    assert loombook("check", book).exit_code == 0


def of_day(book: Path) -> list[Path]:
    """The files of the visits that were begun."""
    return [path for path in visit_files(book, TANSY) if "2026-03-04" in path.name]


def fill(begun: Path, row: str) -> None:
    """Type a reading into a visit, with its place."""
    plug, cavity, *reading = row.strip("{}").split(", ")
    said = ", ".join([f"session: {begun.stem}", *reading])
    places = f"places:\n  - {plug}\n    {cavity}\n    readings:\n      - {{{said}}}\n"
    text = begun.read_text("utf-8")
    assert "places: []\n" in text
    begun.write_text(text.replace("places: []\n", places), "utf-8")

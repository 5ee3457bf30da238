"""A visit is written once: it is turned and withdrawn by commands, and nothing else is let pass."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from borrowing import change, git, repository
from evidence_book import BRINDLE, TANSY, small_book
from shipped_book import loombook
from test_visits import counted, grades_of
from visited_book import data_of, write

from builder.book import open_book
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import vehicle_meant
from builder.pipeline.checking.book_check import check_book

PLUM = "bay-four-sound-2024-10-02-plum-9"
WHY = "its meter was found broken"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Two cars with their visits in files, under git."""
    folder = small_book(tmp_path / "book")
    assert loombook("mend", "--visits", "-b", folder).exit_code == 0
    return repository(folder)


def visit(book: Path) -> Path:
    return book / "visits" / TANSY / f"{PLUM}.yaml"


def car(book: Path) -> Vehicle:
    return vehicle_meant(open_book(book), TANSY)[1]


def since_first(book: Path) -> list[tuple[str, str, int]]:
    """What the check finds of visits that were changed since the first commit."""
    done = loombook("check", book, "--changed-since", "HEAD", "--format", "json")
    found = json.loads(done.stdout)["findings"]
    return [(f["rule"], Path(f["file"]).name, f["line"]) for f in found if f["rule"] == "BOK129"]


def test_what_a_visit_read_at_one_place_is_set_aside_and_the_rest_counts_on(book):
    before = visit(book).read_bytes()
    done = loombook("visit", "withdraw", PLUM, "--at", "a.7", "--because", WHY, "--date",
                    "2025-01-02", "-b", book)  # fmt: skip
    assert done.exit_code == 0, done.output
    assert "set aside at A.7" in done.output
    assert "A.7: 0.96 proven -> 0.80 good (fell)" in done.output
    assert "A.10:" not in done.output
    assert visit(book).read_bytes() == before
    (settled,) = car(book).resolutions
    assert (settled.pin, settled.date, settled.deciding) == ("A.7", "2025-01-02", WHY)
    assert since_first(book) == []


def test_a_visit_is_named_by_a_part_of_its_name_that_no_other_has(book):
    done = loombook("visit", "withdraw", "plum-9", "--because", WHY, "--dry-run", "-b", book)
    assert done.exit_code == 0, done.output
    done = loombook("visit", "withdraw", "-", "--because", WHY, "--dry-run", "-b", book)
    assert done.exit_code == 2
    assert PLUM in done.output and "could be any of" in done.output


def test_a_place_that_a_visit_did_not_read_is_refused(book):
    done = loombook("visit", "withdraw", PLUM, "--at", "A.9", "--because", WHY, "-b", book)
    assert done.exit_code == 2
    assert "this visit read nothing at A.9" in done.output


def test_a_visit_is_withdrawn_with_a_reason_and_nothing_is_deleted(book):
    before = visit(book).read_text("utf-8")
    done = loombook("visit", "withdraw", visit(book), "--because", WHY, "--date", "2025-01-02",
                    "-b", book)  # fmt: skip
    assert done.exit_code == 0, done.output
    assert "A.7: 0.96 proven -> 0.80 good (fell)" in done.output
    assert "job tansy-subwoofer uses" in done.output
    after = visit(book).read_text("utf-8")
    assert after.startswith(before.rstrip("\n"))
    assert data_of(visit(book))["withdrawn"] == {"date": "2025-01-02", "because": WHY}
    assert "s2" not in {session.id for session in car(book).sessions}
    assert since_first(book) == []


def test_the_page_says_what_was_withdrawn_and_why(book, tmp_path):
    loombook(
        "visit", "withdraw", PLUM, "--because", f"{WHY} <b>", "--date", "2025-01-02", "-b", book
    )
    done = loombook("build", book, "--output", tmp_path / "site")
    assert done.exit_code == 0, done.output
    page = (tmp_path / "site" / "vehicles" / f"{TANSY}.html").read_text("utf-8")
    section = page[page.index("Withdrawn, no longer counted") :]
    assert re.search(
        r"bay-four-sound.*?2024-10-02.*?2025-01-02.*?found broken &lt;b&gt;", section, re.S
    )


def test_a_visit_can_be_named_by_its_id_and_tried_first(book):
    before = visit(book).read_bytes()
    done = loombook("visit", "withdraw", PLUM, "--because", WHY, "--dry-run", "-b", book)
    assert "would be withdrawn" in done.output
    assert visit(book).read_bytes() == before


def test_a_visit_of_the_other_face_is_turned_by_one_command_and_back(book):
    before = graded(book)
    done = loombook("visit", "turn", PLUM, "--plug", "A", "--because", "a photo", "-b", book)
    assert done.exit_code == 3  # it was counted right: turned, some of its cavities are empty
    assert "A.7: 0.96 proven" in done.output and "the other face's" in done.output
    (said,) = data_of(visit(book))["turned"]
    assert said["plugs"] == ["A"] and said["because"] == "a photo"
    assert [len(of_visit(book, plug)) for plug in ("A", "C")] == [0, 1]
    loombook("visit", "turn", PLUM, "--plug", "a", "-b", book)
    assert graded(book) == before
    assert since_first(book) == []


def of_visit(book: Path, plug: str) -> list[str]:
    found = car(book).plug(plug)
    assert found is not None
    return [pin.cavity for pin in found.pins for r in pin.readings if r.session == "s2"]


def graded(book: Path) -> object:
    checked = check_book(open_book(book))
    return grades_of(checked, counted(checked)[TANSY])


REFUSED = {
    "no such visit": (("withdraw", "nobody-2024-01-01-x", "--because", WHY), "is no visit of"),
    "no such plug": (("turn", PLUM, "--plug", "Z"), "read nothing in plug Z"),
    "a short reason": (("withdraw", PLUM, "--because", "wrong"), "has 5 characters"),
    "a day before": (
        ("withdraw", PLUM, "--because", WHY, "--date", "2024-10-01"), "before the day of the visit",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_done_is_refused_and_nothing_written(book, name):
    arguments, words = REFUSED[name]
    before = visit(book).read_bytes()
    done = loombook("visit", *arguments, "-b", book)
    assert done.exit_code == 2
    assert words in done.output
    assert visit(book).read_bytes() == before


@pytest.mark.parametrize("again", ["withdraw", "turn"])
def test_a_withdrawn_visit_is_not_touched_again(book, again):
    loombook("visit", "withdraw", PLUM, "--because", WHY, "-b", book)
    more = ("--because", "another reason") if again == "withdraw" else ()
    done = loombook("visit", again, PLUM, *more, "-b", book)
    assert done.exit_code == 2
    assert "was withdrawn on" in done.output


ALTERED = {
    "a figure": ("value: 3.29", "value: 3.19"),
    "a cavity": ("cavity: 20\n", "cavity: 19\n"),
    "the day": ("date: 2024-10-02", "date: 2024-10-03"),
    "the contributor": ("by: bay-four-sound", "by: kesta-dunn"),
    "a note": ("battery_v: 12.36}", "battery_v: 12.36, note: slipped}"),
}


@pytest.mark.parametrize("name", ALTERED)
def test_a_visit_that_was_typed_over_is_found_at_its_place(book, name):
    old, new = ALTERED[name]
    change(visit(book), old, new)
    line = next(
        at
        for at, text in enumerate(visit(book).read_text("utf-8").splitlines(), 1)
        if new.strip() in text
    )
    assert since_first(book) == [("BOK129", visit(book).name, line)]
    git(book, "commit", "-qam", "typed over")
    assert since_first(book) == []


def test_comments_and_layout_are_no_change(book):
    change(visit(book), "places:", "# measured in the rain\nplaces:")
    assert since_first(book) == []


def test_a_withdrawal_that_is_taken_back_is_found(book):
    loombook("visit", "withdraw", PLUM, "--because", WHY, "-b", book)
    loombook("visit", "turn", "alder-pit-audio-2023-04-18-k7m2", "-b", book)
    git(book, "commit", "-qam", "withdrawn and turned")
    text = visit(book).read_text("utf-8")
    visit(book).write_text(re.sub(r"withdrawn: .*\n", "", text), "utf-8")
    other = visit(book).with_name("alder-pit-audio-2023-04-18-k7m2.yaml")
    other.write_text(re.sub(r"\nturned:\n.*\n", "\n", other.read_text("utf-8")), "utf-8")
    assert {name for _, name, _ in since_first(book)} == {visit(book).name, other.name}


def test_a_visit_that_was_deleted_is_found_and_one_that_came_is_not(book):
    visit(book).unlink()
    ask = ("--vehicle", BRINDLE, "--by", "kesta-dunn", "--date", "2025-02-03", "--tag", "new-1")
    loombook("new", "visit", *ask, "--read-from", "wire_side", "-b", book)
    assert since_first(book) == [("BOK129", visit(book).name, 1)]


def test_a_visit_that_moved_with_its_vehicle_is_no_change(book):
    new = f"{TANSY}-first"
    place = book / "vehicles" / "ostrel" / f"{TANSY}.yaml"
    change(place, f"id: {TANSY}", f"id: {new}")
    place.rename(place.with_name(f"{new}.yaml"))
    text = f"schema: 1\nrenamed:\n  - {{kind: vehicle, was: {TANSY}, now: {new}}}\n"
    (book / "book.yaml").write_text(text, "utf-8")
    (book / "visits" / TANSY).rename(book / "visits" / new)
    loombook("mend", "-b", book)
    assert f"vehicle: {new}\n" in (book / "visits" / new / visit(book).name).read_text("utf-8")
    assert since_first(book) == []


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("turned", [{"date": "{}", "because": WHY}]),
        ("withdrawn", {"date": "{}", "because": WHY}),
    ],
)
def test_what_was_done_to_a_visit_before_it_or_in_the_future_is_told_in_its_file(book, key, said):
    typed = data_of(visit(book))
    for day, as_of, words in (
        ("2024-10-01", "2025-06-01", "is of 2024-10-01, before the visit itself, 2024-10-02"),
        ("2025-06-02", "2025-06-01", "after 2025-06-01, the day the book is checked for"),
        ("2024-10-02", "2025-06-01", ""),
        ("2025-06-01", "2025-06-01", ""),
    ):
        write(visit(book), {**typed, key: json.loads(json.dumps(said).replace("{}", day))})
        done = loombook("check", book, "--as-of", as_of, "--format", "json")
        found = [f for f in json.loads(done.stdout)["findings"] if f["rule"] == "EVD106"]
        assert [Path(f["file"]).name for f in found] == [visit(book).name] * bool(words)
        assert all(words in f["message"] for f in found)
        lines = visit(book).read_text("utf-8").splitlines()
        assert all(f'"date": "{day}"' in lines[f["line"] - 1] for f in found)


@pytest.mark.parametrize("command", [("visit", "turn", PLUM), ("visit", "withdraw", PLUM)])
def test_a_day_that_is_still_to_come_is_refused(book, command):
    before = visit(book).read_bytes()
    done = loombook(*command, "--because", WHY, "--date", "2999-01-01", "-b", book)
    assert done.exit_code == 2 and "2999-01-01 is still to come" in done.output
    assert visit(book).read_bytes() == before

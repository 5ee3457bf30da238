"""A question about one car reads that car, and is answered as if the whole book had been read."""

from __future__ import annotations

import json
import os
import random
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from edited_book import JOB, edit, furnished, texts
from opened_files import opened_under
from samples import many
from shipped_book import loombook

from builder.book import Book, Looks, open_book
from builder.book import looks as looks_module
from builder.pipeline.answers.kept_entries import finder_entries
from builder.pipeline.answers.kept_wanted import measure_next
from builder.pipeline.answers.recalls import recalled_jobs
from builder.pipeline.checking import records
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.saved_meanwhile import SavedMeanwhileError
from builder.store import Store

OWN = b"k" * 32
TANSY = "ostrel-tansy-2017-hatch-base"
CAR = f"vehicles/ostrel/{TANSY}.yaml"


@pytest.fixture
def book(small_book: Path) -> Path:
    return furnished(small_book)


@pytest.fixture
def settled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Files that were saved just now count as left alone."""
    monkeypatch.setattr(looks_module, "_MARGIN_NS", -1_000_000_000)


def looked(book: Path) -> Book:
    store = Store(book, OWN)
    return replace(open_book(book, looks=Looks(store, book)), store=store)


def forget() -> None:
    """As in a new process: nothing is known of any text."""
    records._understood.cache_clear()
    records._read_once.cache_clear()


def records_read(book: Path, *words: str) -> Counter[Path]:
    forget()
    with opened_under(book) as opened:
        assert loombook(*words, "--book", book).exit_code in (0, 1)
    return Counter({path: n for path, n in opened.items() if path.suffix == ".yaml"})


QUESTIONS = (
    ("show", TANSY),
    ("plan", TANSY, "--converter", "cvn-2a"),
    ("why", TANSY, "A.7"),
    ("comeback", JOB),
)
OF_ALL = (
    ("find", "tansy switched"),
    ("which", "x", "y"),
    ("next",),
    ("next", "--make", "Ostrel", "--limit", "3", "--format", "json"),
)


@pytest.mark.usefixtures("settled")
@pytest.mark.parametrize("words", QUESTIONS, ids=" ".join)
def test_a_question_about_one_car_opens_no_other(book: Path, words: tuple[str, ...]) -> None:
    first, again = records_read(book, *words), records_read(book, *words)
    cars = {path for path in first if "vehicles" in path.parts or "visits" in path.parts}
    own = {path for path in cars if TANSY in (path.stem, path.parent.name)}
    assert own < cars and own <= set(again)
    assert not (cars - own) & set(again)
    assert set(again.values()) == {1}


@pytest.mark.usefixtures("settled")
def test_a_question_of_all_cars_opens_none_again(book: Path) -> None:
    first, again = (records_read(book, "find", "tansy switched") for _ in range(2))
    assert any("vehicles" in path.parts for path in first)
    assert not any("vehicles" in path.parts or "visits" in path.parts for path in again)


@pytest.mark.usefixtures("settled")
@pytest.mark.parametrize("limit", [1, 3])
def test_what_to_measure_next_opens_the_cars_that_it_lists(book: Path, limit: int) -> None:
    asked = ("next", "--limit", str(limit), "--format", "json")
    first, again = records_read(book, *asked), records_read(book, *asked)
    listed = json.loads(loombook(*asked, "--book", book).output)["next"]
    cars = {path.stem for path in again if "vehicles" in path.parts}
    assert {one["vehicle"] for one in listed} <= cars
    assert len(cars) <= limit < len({path for path in first if "vehicles" in path.parts})


def test_what_to_measure_next_is_the_same_with_a_store(book: Path) -> None:
    """After each edit, looked at whole, and by the order that was kept then."""
    kept = {path: path.read_bytes() for path in texts(book)}
    chance = random.Random(13)
    for _ in range(many(10)):
        edit(book, chance, kept)
        plain = measure_next(open_book(book), "", 10_000)
        recalled = [made.parts.job.id for made in recalled_jobs(open_book(book))]
        for most in (10_000, 10_000, 4):
            some = replace(open_book(book), store=Store(book, OWN))
            assert measure_next(some, "", most) == plain[:most]
            assert [made.parts.job.id for made in recalled_jobs(some)] == recalled


@pytest.mark.usefixtures("settled")
@pytest.mark.parametrize("words", [*QUESTIONS, *OF_ALL])
def test_it_says_what_it_says_without_a_store(
    book: Path, words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    said = [loombook(*words, "--book", book).output for _ in range(2)]
    monkeypatch.setenv("LOOMBOOK_NO_STORE", "1")
    assert {loombook(*words, "--book", book).output, *said} == {said[0]}


def same_about(whole: CheckedBook, one: CheckedBook, file: Path, vehicle: str | None) -> None:
    """What is known of a vehicle is the same in a whole book and in an answer about it."""
    shown = next(f.shown for f in whole.book.files() if f.path == file)
    assert one.findings_of(shown) == whole.findings_of(shown)
    assert one.as_of == whole.as_of
    gates = whole.gate(), one.gate()
    for name in (("vehicle", vehicle or file.stem), ("vehicle", file.stem)):
        assert gates[0].standing([name]) == gates[1].standing([name])
        assert gates[0].bars(name[1]) == gates[1].bars(name[1])


def test_after_any_edit_each_car_is_known_as_in_the_whole_book(book: Path) -> None:
    kept = {path: path.read_bytes() for path in texts(book)}
    chance = random.Random(31)
    for _ in range(many(20)):
        edit(book, chance, kept)
        whole = check_book(open_book(book))
        check_book(replace(open_book(book), store=Store(book, OWN)))
        for car in whole.vehicles:
            some = replace(open_book(book), store=Store(book, OWN))
            one = check_book(some, jobs=(), about=(car.file.path,))
            assert len(one.vehicles) <= len(whole.vehicles)
            same_about(whole, one, car.file.path, car.id)


def test_what_stands_in_the_file_of_another_car_is_known(book: Path) -> None:
    """Two records of one scope that disagree: the finding stands in one file, and doubts both."""
    twin = f"{TANSY}-twin"
    text = (book / CAR).read_text("utf-8").replace(f"id: {TANSY}", f"id: {twin}", 1)
    text = text.replace("front-", "middle-").replace("rear-", "front-").replace("middle-", "rear-")
    (book / CAR).with_name(f"{twin}.yaml").write_text(text, "utf-8")
    whole = check_book(replace(open_book(book), store=Store(book, OWN)))
    named = {name for finding in whole.findings for name in finding.also}
    assert named
    for name in (TANSY, twin):
        file = (book / CAR).with_name(f"{name}.yaml")
        some = replace(open_book(book), store=Store(book, OWN))
        one = check_book(some, jobs=(), about=(file,))
        assert one.gate().standing([("vehicle", name)])
        same_about(whole, one, file, name)


@pytest.mark.usefixtures("settled")
def test_a_text_that_is_as_long_and_as_old_is_another(book: Path) -> None:
    file = book / CAR
    before = looked(book)
    about = file.stat()
    file.write_text(file.read_text("utf-8").replace("model: Tansy", "model: Tanzy"), "utf-8")
    os.utime(file, ns=(about.st_atime_ns, about.st_mtime_ns))
    assert file.stat().st_size == about.st_size and file.stat().st_mtime_ns == about.st_mtime_ns
    assert looked(book).digest != before.digest


def test_what_was_saved_just_now_is_read_again(book: Path) -> None:
    looked(book)
    with opened_under(book) as opened:
        looked(book)
    assert (book / CAR).resolve() in opened


@pytest.mark.usefixtures("settled")
def test_a_look_is_that_of_a_whole_reading(book: Path) -> None:
    kept = {path: path.read_bytes() for path in texts(book)}
    chance = random.Random(5)
    for _ in range(many(20)):
        edit(book, chance, kept)
        assert looked(book).digest == open_book(book).digest
        files = zip(looked(book).files(), open_book(book).files(), strict=True)
        assert all(one.content.raw == other.content.raw for one, other in files)


@pytest.mark.usefixtures("settled")
def test_nothing_is_answered_of_two_states(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    looked(book)
    whole = looked(book)
    forget()
    text = (book / CAR).read_text("utf-8")
    (book / CAR).write_text("schema: 1\n", "utf-8")
    with pytest.raises(SavedMeanwhileError, match=TANSY):
        check_book(whole)
    take = Looks.take

    def saved_after_the_look(self: Looks, path: Path) -> object:
        taken = take(self, path)
        if path.stem == TANSY:
            path.write_text(f"{path.read_text('utf-8')}# saved\n", "utf-8")
        return taken

    (book / CAR).write_text(text, "utf-8")
    loombook("show", TANSY, "--book", book)
    monkeypatch.setattr(Looks, "take", saved_after_the_look)
    forget()
    told = loombook("show", TANSY, "--book", book)
    assert told.exit_code == 1
    assert "was saved while the book was read: run the same command again" in told.output


def test_entries_are_the_same_with_a_store(book: Path) -> None:
    kept = {path: path.read_bytes() for path in texts(book)}
    chance = random.Random(7)
    for _ in range(many(10)):
        edit(book, chance, kept)
        plain = finder_entries(open_book(book))
        for _ in range(2):
            assert finder_entries(replace(open_book(book), store=Store(book, OWN))) == plain

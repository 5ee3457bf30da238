"""A look is taken at once when something was saved, and now and then though nothing seems to be."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace

import pytest

from builder.cli import watching
from builder.cli.watching import IDLE_REST, SAVED_S, SOON_S, USUAL_S, Moved, scanned, watch


class Ended(Exception):  # noqa: N818 - nothing is wrong
    """The test has seen enough."""


class Book:
    """A folder with records, its looks, and a clock that only rests move."""

    def __init__(self, folder: Path, look_s: float = 0.01) -> None:
        self.folder, self.look_s = folder, look_s
        self.settings_folders, self.record_folders = [folder], [folder / "vehicles"]
        self.looks: list[float] = []
        self.moved: list[Moved] = []
        self.now = 0.0
        self.after: Callable[[float], None] = lambda now: None
        self.settled: Iterator[bool] = iter(())

    def look_again(self, moved: Moved = None) -> bool:
        self.looks.append(round(self.now, 2))
        self.moved.append(moved)
        return next(self.settled, True)

    def sleep(self, seconds: float) -> None:
        self.now += seconds
        self.after(self.now)


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Book:
    found = Book(tmp_path)
    (tmp_path / "vehicles" / "maker").mkdir(parents=True)
    save(found, "vehicles/maker/one.yaml", "1")
    save(found, "book.yaml", "name: Ours")
    clock = SimpleNamespace(monotonic=lambda: found.now, sleep=found.sleep)
    monkeypatch.setattr(watching, "time", clock)
    return found


def save(book: Book, place: str, text: str) -> None:
    (book.folder / place).write_text(text, "utf-8")


def looks_until(book: Book, end_s: float, at_s: float, do: Callable[[], None]) -> list[float]:
    """When the book is looked at while something is done once after so long."""
    done: list[float] = []

    def after(now: float) -> None:
        if now > end_s:
            raise Ended
        if now >= at_s and not done:
            done.append(now)
            do()

    book.after = after
    with pytest.raises(Ended):
        watch(book)
    return book.looks


def test_what_is_saved_is_looked_at_by_the_next_scan(book: Book) -> None:
    book.look_s = 1.0
    looks = looks_until(book, 30.0, 20.0, lambda: save(book, "vehicles/maker/one.yaml", "2"))
    assert looks == [0.0, 20.0]
    assert book.moved == [None, {book.folder / "vehicles/maker/one.yaml"}]


def test_a_look_that_was_due_does_not_let_who_saves_wait(book: Book) -> None:
    book.look_s = 1.0
    due_s = IDLE_REST * book.look_s
    saved_s = due_s + 0.1
    looks = looks_until(
        book, due_s + 30.0, saved_s, lambda: save(book, "vehicles/maker/one.yaml", "2")
    )
    assert looks[0] == 0.0 and looks[2] - saved_s <= 2 * SOON_S
    assert book.moved[1] is None and book.moved[2]


@pytest.mark.parametrize("what", ["new", "deleted", "renamed", "settings", "kept size and date"])
def test_whatever_may_change_what_is_read_moves_a_scan(book: Book, what: str) -> None:
    one = book.folder / "vehicles" / "maker" / "one.yaml"
    before = scanned(book)
    assert scanned(book) == before
    if what == "new":
        save(book, "vehicles/maker/two.yaml", "2")
    elif what == "deleted":
        one.unlink()
    elif what == "renamed":
        one.rename(one.with_name("another.yaml"))
    elif what == "settings":
        save(book, "book.yaml", "name: Theirs")
    else:
        told = one.stat()
        one.write_text("2", "utf-8")
        os.utime(one, ns=(told.st_atime_ns, told.st_mtime_ns))
    assert scanned(book) != before


def test_what_a_book_does_not_read_does_not_move_a_scan(book: Book) -> None:
    (book.folder / "site").mkdir()
    before = scanned(book)
    save(book, "site/index.html", "another")
    assert scanned(book) == before


def test_while_nothing_moves_a_look_is_taken_now_and_then(book: Book) -> None:
    assert looks_until(book, 2.5 * USUAL_S, 99.0, lambda: None) == [0.0, USUAL_S, 2 * USUAL_S]
    book.now, book.looks, book.look_s = 0.0, [], 0.2
    looks = looks_until(book, 30.0, 99.0, lambda: None)
    between = [late - early for early, late in pairwise(looks)]
    assert between and all(9.8 <= each <= 9.8 + SOON_S for each in between)


def test_files_that_move_all_the_time_take_a_tenth_of_a_processor(book: Book) -> None:
    book.look_s = 0.5

    def after(now: float) -> None:
        save(book, "book.yaml", f"name: {now}")
        if now > 60.0:
            raise Ended

    book.after = after
    with pytest.raises(Ended):
        watch(book)
    looks = len(book.looks) - 1  # the first is taken though nothing moved
    assert looks * book.look_s <= 60.0 / 9 + book.look_s


def test_a_book_that_is_being_saved_is_looked_at_again_soon(book: Book) -> None:
    book.settled = iter((False, False, True))
    assert looks_until(book, 0.9, 99.0, lambda: None)[:3] == [0.0, SAVED_S, 2 * SAVED_S]


def test_a_folder_that_is_gone_has_nothing(book: Book) -> None:
    book.record_folders = [book.folder / "nowhere"]
    assert {Path(str(each[0])).name for each in scanned(book)} == {"book.yaml"}

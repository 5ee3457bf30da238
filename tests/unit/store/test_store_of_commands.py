"""What commands say never depends on their store: killed, shared, damaged, borrowed, left out."""

from __future__ import annotations

import os
import random
import shutil
import signal
import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from edited_book import CAR, furnished
from forked import command, start
from shipped_book import loombook

from builder.cli import main
from builder.store import FOLDER, MOST_BYTES, NO_STORE_VARIABLE, Store, kept_rows

TANSY = CAR.stem


@pytest.fixture
def book(small_book: Path) -> Path:
    return furnished(small_book)


def file_of(book: Path) -> Path:
    (file,) = (book / FOLDER).glob("*.sqlite3")
    return file


def without(book: Path) -> str:
    """What a check says that asks no store, and leaves none."""
    return loombook("check", book, "--no-store").output


def anew(book: Path) -> int:
    """How much a check looks at that it does not take from the store."""
    return int(loombook("check", book, "-v").stderr.split()[0])


def is_whole(book: Path) -> bool:
    with closing(sqlite3.connect(file_of(book))) as file:
        return bool(file.execute("PRAGMA integrity_check").fetchone() == ("ok",))


@pytest.mark.skipif(os.name != "posix", reason="needs fork and SIGKILL")
def test_a_check_killed_midway_leaves_a_store_that_tells_the_truth(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builder.pipeline.checking.kept._WRITTEN_AT_ONCE", 1)  # many writes to hit
    told, chance = without(book), random.Random(11)
    begun = time.monotonic()
    assert command("check", book).stdout == told
    length, met = time.monotonic() - begun, 0
    with Path(os.devnull).open("w") as nowhere:
        for number in range(12):
            shutil.rmtree(book / FOLDER)
            child = start(lambda: main(["check", str(book)]), nowhere.fileno(), nowhere.fileno())
            time.sleep(length * (number + chance.random()) / 12)
            os.kill(child, signal.SIGKILL)
            met += os.WIFSIGNALED(os.waitpid(child, 0)[1])
            assert loombook("check", book).output == told
            assert is_whole(book)
    assert met > 3


@pytest.mark.skipif(os.name != "posix", reason="needs fork")
def test_commands_at_once_share_a_store(book: Path, tmp_path: Path) -> None:
    """Two checks, a build and a question begin together where there is no store yet."""
    told, said = without(book), loombook("show", TANSY, "--book", book).output
    shutil.rmtree(book / FOLDER)
    asked = [
        ("check", book), ("check", book), ("show", TANSY, "--book", book),
        ("build", book, "-o", tmp_path / "site"),
    ]  # fmt: skip
    places = [tmp_path / f"told-{number}" for number in range(len(asked))]
    living = []
    for words, place in zip(asked, places, strict=True):
        with place.open("w") as out, Path(os.devnull).open("w") as nowhere:
            given = [str(word) for word in words]
            living.append(start(lambda given=given: main(given), out.fileno(), nowhere.fileno()))
    codes = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in living]
    assert codes[2:] == [0, 0] and codes[0] == codes[1]
    assert [place.read_text("utf-8") for place in places[:3]] == [told, told, said]
    assert anew(book) == 0 and is_whole(book)
    assert loombook("build", book, "-o", tmp_path / "alone", "--no-store").exit_code == 0
    assert of_site(tmp_path / "site") == of_site(tmp_path / "alone")


def of_site(site: Path) -> dict[str, bytes]:
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def cut_off(file: Path) -> None:
    file.write_bytes(file.read_bytes()[: file.stat().st_size // 2])


def garbage(file: Path) -> None:
    file.write_bytes(random.Random(3).randbytes(file.stat().st_size))


def bodies_swapped(file: Path) -> None:
    """Every row has what belongs to the next one, sum and all."""
    with sqlite3.connect(file) as rows:
        kept = rows.execute("SELECT key, sum, body FROM kept ORDER BY key").fetchall()
        for (key, _, _), (_, seal, body) in zip(kept, kept[1:] + kept[:1], strict=True):
            rows.execute("UPDATE kept SET sum = ?, body = ? WHERE key = ?", (seal, body, key))
    rows.close()


def another_form(file: Path) -> None:
    with sqlite3.connect(file) as rows:
        rows.execute("ALTER TABLE kept RENAME COLUMN body TO content")
    rows.close()


@pytest.mark.parametrize("spoil", [cut_off, garbage, bodies_swapped, another_form])
def test_a_damaged_store_is_made_anew_and_never_believed(
    book: Path, spoil: Callable[[Path], None]
) -> None:
    told = without(book)
    loombook("check", book)
    assert anew(book) == 0
    spoil(file_of(book))
    again = loombook("check", book, "-v")
    assert again.stdout == told and int(again.stderr.split()[0]) > 0
    assert anew(book) == 0 and is_whole(book)


def test_the_store_of_another_book_says_nothing_of_this_one(book: Path, tmp_path: Path) -> None:
    """One car of the other is damaged, and nothing else of it is another."""
    other = shutil.copytree(book, tmp_path / "other")
    typed = (other / CAR).read_text("utf-8")
    (other / CAR).write_text(typed.replace("model: Tansy", "model: [Tansy]"), "utf-8")
    told, of_other = without(book), without(other)
    assert of_other != told.replace(str(book), str(other))
    loombook("check", other)
    shutil.copytree(other / FOLDER, book / FOLDER)
    again = loombook("check", book, "-v")
    assert again.stdout == told and int(again.stderr.split()[0]) > 0


def test_a_store_without_what_this_user_sealed_is_not_believed(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = without(book)
    loombook("check", book)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "of-another-user"))
    again = loombook("check", book, "-v")
    assert again.stdout == told and int(again.stderr.split()[0]) > 0


COMMANDS = (
    ("check", "BOOK"), ("build", "BOOK", "-o", "SITE"), ("show", TANSY, "-b", "BOOK"),
    ("find", "tansy", "-b", "BOOK"), ("plan", TANSY, "--converter", "cvn-2a", "-b", "BOOK"),
)  # fmt: skip


@pytest.mark.parametrize("how", ["option", "variable"])
@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: words[0])
def test_who_wants_no_store_reads_none_and_writes_none(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], how: str
) -> None:
    places = {"BOOK": str(book), "SITE": str(tmp_path / "site")}
    typed = [places.get(word, word) for word in words]
    if how == "option":
        if words[0] not in ("check", "build"):
            return  # questions have the variable alone
        typed.append("--no-store")
    else:
        monkeypatch.setenv(NO_STORE_VARIABLE, "1")
    first = loombook(*typed)
    assert not (book / FOLDER).exists()
    Store(book, b"k" * 32).put({"ee" * 32: b"kept"})
    before, about = file_of(book).read_bytes(), file_of(book).stat()
    monkeypatch.setattr(sqlite3, "connect", refused)
    assert loombook(*typed).output == first.output
    after = file_of(book).stat()
    assert (after.st_mtime_ns, after.st_ctime_ns) == (about.st_mtime_ns, about.st_ctime_ns)
    assert file_of(book).read_bytes() == before


def refused(*given: object, **named: object) -> None:
    raise AssertionError("a store was asked for")


def test_the_size_is_bounded_and_said(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    told = loombook("check", book, "-v").stderr
    first = file_of(book).stat().st_size
    assert f"the store takes {first / 1e6:.1f} MB of at most {MOST_BYTES // 10**6} MB" in told
    most = first + 8192
    monkeypatch.setattr(kept_rows, "MOST_BYTES", most)
    sizes = [edited_and_checked(book, number) for number in range(8)]
    assert max(sizes) <= most
    monkeypatch.setattr(kept_rows, "MOST_BYTES", MOST_BYTES)
    assert max(edited_and_checked(book, number) for number in range(8)) > most


def edited_and_checked(book: Path, number: int) -> int:
    """What the store takes after one more edit of all cars, in bytes."""
    for car in (book / "vehicles/ostrel").glob("*.yaml"):
        car.write_text(car.read_text("utf-8") + f"# looked at {number} times\n", "utf-8")
    loombook("check", book)
    return file_of(book).stat().st_size

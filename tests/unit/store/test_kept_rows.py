"""The store gives back what this user put into it, or nothing; and it never raises."""

from __future__ import annotations

import os
import random
import shutil
import signal
import sqlite3
import stat
import subprocess
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from forked import start

from builder.store import FOLDER, NO_STORE, NO_STORE_VARIABLE, Store, kept_rows, store_of

OWN = b"k" * 32
ROWS = {f"{number:064x}": b"row %d " % number * 50 for number in range(300)}


@pytest.fixture
def store(tmp_path: Path) -> Store:
    filled = Store(tmp_path, OWN)
    filled.put(ROWS)
    return filled


def file_of(folder: Path) -> Path:
    (file,) = (folder / FOLDER).glob("*.sqlite3")
    return file


def test_what_was_put_in_comes_out(store: Store) -> None:
    assert store.get([*ROWS]) == ROWS
    key = next(iter(ROWS))
    assert store.get([key, "ff" * 32]) == {key: ROWS[key]}
    store.put({key: b"another"})
    assert store.get([key]) == {key: b"another"}
    assert store.get([]) == {}
    assert 0 < store.size_bytes < kept_rows.MOST_BYTES


def test_asking_makes_no_store(tmp_path: Path) -> None:
    assert Store(tmp_path, OWN).get(["00" * 32]) == {}
    assert not any(tmp_path.iterdir())
    NO_STORE.put(ROWS)
    assert NO_STORE.get([*ROWS]) == {} and NO_STORE.size_bytes == 0 and not NO_STORE.is_kept


def test_git_does_not_see_it(store: Store, tmp_path: Path) -> None:
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    said = subprocess.run(
        ["git", "-C", str(tmp_path), "status", "--porcelain", "--untracked-files=all"],
        check=True, capture_output=True, text=True,
    )  # fmt: skip
    assert said.stdout == ""


def test_what_another_user_sealed_is_not_believed(store: Store, tmp_path: Path) -> None:
    assert Store(tmp_path, b"j" * 32).get([*ROWS]) == {}
    assert store.get([*ROWS]) == ROWS


def test_a_row_under_the_key_of_another_is_not_believed(store: Store, tmp_path: Path) -> None:
    first, second, *_ = ROWS
    with sqlite3.connect(file_of(tmp_path)) as file:
        taken = file.execute("SELECT sum, body FROM kept WHERE key = ?", [bytes.fromhex(second)])
        change = "UPDATE kept SET sum = ?, body = ? WHERE key = ?"
        file.execute(change, [*taken.fetchone(), bytes.fromhex(first)])
    file.close()
    assert store.get([first, second]) == {second: ROWS[second]}


@pytest.mark.parametrize("seed", range(25))
def test_damage_loses_rows_and_changes_none(store: Store, tmp_path: Path, seed: int) -> None:
    chance, place = random.Random(seed), file_of(tmp_path)
    raw = bytearray(place.read_bytes())
    for _ in range(chance.choice((1, 3, 100))):
        raw[chance.randrange(len(raw))] ^= 1 + chance.randrange(255)
    place.write_bytes(raw[: chance.choice((len(raw), chance.randrange(len(raw))))])
    found = store.get([*ROWS])
    assert all(ROWS[key] == row for key, row in found.items())
    store.put(ROWS)
    store.put(ROWS)  # what the first met may only have shown that the file is damaged
    assert all(ROWS[key] == row for key, row in store.get([*ROWS]).items())


def foreign_text(file: Path) -> None:
    file.write_bytes(b"this is no database " * 500)


def foreign_table(file: Path) -> None:
    file.unlink()
    with sqlite3.connect(file) as other:
        other.execute("CREATE TABLE kept (key, used, sum, body)")
    other.close()


def newer_form(file: Path) -> None:
    with sqlite3.connect(file) as other:
        other.execute("ALTER TABLE kept ADD COLUMN more")
    other.close()


def with_a_trigger(file: Path) -> None:
    with sqlite3.connect(file) as other:
        other.execute("CREATE TRIGGER t AFTER INSERT ON kept BEGIN DELETE FROM kept; END")
    other.close()


def empty(file: Path) -> None:
    file.write_bytes(b"")


@pytest.mark.parametrize("spoil", [foreign_text, foreign_table, newer_form, with_a_trigger, empty])
def test_what_is_no_store_of_ours_is_made_anew(
    store: Store, tmp_path: Path, spoil: Callable[[Path], None]
) -> None:
    spoil(file_of(tmp_path))
    assert store.get([*ROWS]) == {}
    store.put(ROWS)
    assert store.get([*ROWS]) == ROWS


@pytest.mark.parametrize("what", ["folder", "file"])
def test_no_link_is_followed(tmp_path: Path, what: str) -> None:
    elsewhere, book = tmp_path / "elsewhere", tmp_path / "book"
    book.mkdir()
    elsewhere.mkdir()
    if what == "folder":
        (book / FOLDER).symlink_to(elsewhere)
    else:
        Store(book, OWN).put(ROWS)
        file_of(book).replace(elsewhere / "theirs")
        (book / FOLDER / "kept-1.sqlite3").symlink_to(elsewhere / "theirs")
    before = {path: path.read_bytes() for path in elsewhere.iterdir()}
    Store(book, OWN).put(ROWS)
    assert Store(book, OWN).get([*ROWS]) == {}
    left = {path: path.read_bytes() for path in elsewhere.iterdir() if path.name != ".gitignore"}
    assert left == before


def test_a_file_stands_where_the_folder_would(tmp_path: Path) -> None:
    (tmp_path / FOLDER).write_text("mine", "utf-8")
    Store(tmp_path, OWN).put(ROWS)
    assert Store(tmp_path, OWN).get([*ROWS]) == {}
    assert (tmp_path / FOLDER).read_text("utf-8") == "mine"


def test_what_cannot_be_written_is_read(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = sqlite3.connect

    def read_only(file: Path, *given: object, **named: object) -> sqlite3.Connection:
        return real(f"file:{file}?mode=ro", uri=True, isolation_level=None)

    monkeypatch.setattr(sqlite3, "connect", read_only)
    monkeypatch.setattr(kept_rows, "_today", lambda: 1)
    assert store.get([*ROWS]) == ROWS
    store.put({"ee" * 32: b"new"})
    assert store.get(["ee" * 32]) == {}


def test_who_is_kept_waiting_does_without(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept_rows, "_WAIT_S", 0.05)
    other = sqlite3.connect(file_of(tmp_path), isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    assert store.get([*ROWS]) == {}
    store.put({"ee" * 32: b"new"})
    other.execute("ROLLBACK")
    other.close()
    assert store.get([*ROWS, "ee" * 32]) == ROWS


def test_its_size_is_bounded_and_what_is_asked_for_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept_rows, "MOST_BYTES", 400_000)
    store, day = Store(tmp_path, OWN), 100
    wanted = "ab" * 32
    for number in range(30):
        day += 1
        monkeypatch.setattr(kept_rows, "_today", lambda day=day: day)
        store.put({wanted: b"wanted"} if not number else {})
        assert store.get([wanted]) == {wanted: b"wanted"}
        store.put({f"{number:032x}{each:032x}": os.urandom(3000) for each in range(20)})
        assert store.size_bytes < 500_000
    assert len(store.get([f"{29:032x}{each:032x}" for each in range(20)])) == 20
    assert store.get([f"{0:032x}{each:032x}" for each in range(20)]) == {}


@pytest.mark.skipif(os.name != "posix", reason="needs fork and SIGKILL")
def test_killed_while_writing_it_stays_whole(tmp_path: Path) -> None:
    """Many short lives write side by side; each is killed, and what is read is always whole."""
    Store(tmp_path, OWN).put(ROWS)
    chance = random.Random(7)

    def write_on() -> None:
        store = Store(tmp_path, OWN)
        while True:
            store.put({key: row for key, row in ROWS.items() if random.random() < 0.5})

    with Path(os.devnull).open("w") as nowhere:
        for _ in range(15):
            living = [start(write_on, nowhere.fileno(), nowhere.fileno()) for _ in range(2)]
            time.sleep(0.02 + chance.random() * 0.06)
            found = Store(tmp_path, OWN).get([*ROWS])
            assert found in (ROWS, {})  # {} when it was waited for too long
            for each in living:
                os.kill(each, signal.SIGKILL)
                os.waitpid(each, 0)
            assert Store(tmp_path, OWN).get([*ROWS]) == ROWS


def test_the_key_is_of_this_user_and_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(NO_STORE_VARIABLE, raising=False)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    book = tmp_path / "book"
    book.mkdir()
    store_of(book).put(ROWS)
    (key,) = (tmp_path / "state" / "loombook").iterdir()
    assert stat.S_IMODE(key.stat().st_mode) == 0o600
    assert len(key.read_bytes()) == 32
    assert store_of(book).get([*ROWS]) == ROWS
    moved = shutil.copytree(book, tmp_path / "moved")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "other"))
    assert store_of(moved).get([*ROWS]) == {}
    key.write_bytes(b"cut off")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    assert store_of(book).get([*ROWS]) == {}
    assert len(key.read_bytes()) == 32


def test_without_a_home_or_by_wish_there_is_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    monkeypatch.delenv(NO_STORE_VARIABLE, raising=False)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "file"))
    assert store_of(tmp_path) is NO_STORE
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    assert store_of(tmp_path).is_kept
    monkeypatch.setenv(NO_STORE_VARIABLE, "1")
    assert store_of(tmp_path) is NO_STORE

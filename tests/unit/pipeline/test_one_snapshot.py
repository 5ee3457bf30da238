"""One snapshot: every file of a book is read once, and what is shown is what was checked."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from evidence_book import sheet_file
from opened_files import opened_under
from shipped_book import PINOUTS, loombook

from builder.book import Book, RecordFile, open_book
from builder.pipeline.answers.answering import described_vehicle
from builder.pipeline.answers.packs import packed
from builder.pipeline.answers.planned import planned
from builder.pipeline.changing.importing import import_table, write_imported
from builder.pipeline.changing.mending import mended_book, write_mended
from builder.pipeline.changing.record_files import ChangedMeanwhileError, text_of
from builder.pipeline.changing.sheet_files import rows_of_vehicle, write_table
from builder.pipeline.changing.tidying import tidied_file, write_tidied
from builder.pipeline.checking import records, workers
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.comparing.books import compared, edition_of_book
from builder.pipeline.comparing.past_book import past_book
from builder.pipeline.site.building import build_site

TANSY = "ostrel-tansy-2017-hatch-base"
CAR = f"vehicles/ostrel/{TANSY}.yaml"
JOB = "tansy-subwoofer"
ACROSS = "{pair: front-left, state: unplugged, quantity: ohm, value: 3.3}"
UNREADABLE = "schema: 1\nid: [\n"


@pytest.fixture
def book(small_book: Path) -> Path:
    (small_book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", small_book / "jobs")
    shutil.copy(PINOUTS / "vehicles" / "TEMPLATE.yaml", small_book / "vehicles")
    (small_book / "book.yaml").write_text("schema: 1\nsite_name: Ours\n", "utf-8")
    return small_book


@pytest.fixture
def forking(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "WORTH_FORKING", 1)
    monkeypatch.setattr(workers.os, "cpu_count", lambda: 2)


def read_once(book: Path, *arguments: str | Path) -> None:
    """Run a command; every record and the settings must be opened exactly once.

    A photo is judged when somebody asks for it, and once more by who copies it into a site.
    """
    with opened_under(book) as opened:
        done = loombook(*arguments)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    photos = {path: opened.pop(path) for path in [*opened] if path.suffix == ".png"}
    records = {path.resolve() for path in book.rglob("*.yaml")}
    assert set(opened) == records, done.output
    assert set(opened.values()) == {1}, opened
    assert max(photos.values(), default=0) <= 3, photos


ASKING = (
    ("check",),
    ("find", "tansy switched"),
    ("show", TANSY),
    ("show", TANSY, "--format", "json"),
    ("plan", TANSY, "--converter", "cvn-2a"),
    ("plan", TANSY, "--converter", "cvn-2a", "--amplifier", "amn-600"),
    ("plan", JOB),
    ("which", "ostrel", "tansy"),
    ("why", TANSY, "A.7"),
    ("next",),
    ("mend", "--dry-run"),
    ("tidy", "--check"),
)


@pytest.mark.parametrize("words", ASKING, ids=" ".join)
def test_a_question_reads_every_file_once(
    book: Path, words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(book)
    read_once(book, *words)


@pytest.mark.parametrize("words", [("check",), ("next",)], ids=" ".join)
def test_workers_read_nothing_again(
    book: Path, words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch, forking: None
) -> None:
    monkeypatch.chdir(book)
    read_once(book, *words)


@pytest.mark.parametrize("many", [False, True], ids=["alone", "forked"])
def test_a_build_reads_every_file_once(
    book: Path, tmp_path: Path, many: bool, request: pytest.FixtureRequest
) -> None:
    if many:
        request.getfixturevalue("forking")
    read_once(book, "build", book, "--output", tmp_path / "site")


def test_the_commands_that_try_a_change_read_every_file_once(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = tmp_path / "car.csv"
    write_table(table, rows_of_vehicle(open_book(book), TANSY))
    sheet = tmp_path / "bay-sheet.yaml"
    monkeypatch.chdir(book)
    read_once(book, "import", table, "--replace", "--dry-run")
    read_once(book, "new", "bay-sheet", JOB, "--output", sheet)
    about = f"vehicle: {TANSY}\njob: {JOB}"
    filled = sheet_file(tmp_path / "filled.yaml", about, ACROSS)
    read_once(book, "evidence", "add", filled, "--dry-run", "--book", book)


def test_two_books_and_two_files_are_compared_after_one_reading(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other"
    shutil.copytree(book, other)
    read_once(other, "diff", book, other)
    monkeypatch.chdir(tmp_path)
    alone = tmp_path / "alone"
    alone.mkdir()
    shutil.copy(book / CAR, alone)
    read_once(alone, "diff", alone / f"{TANSY}.yaml", book / CAR)


def test_a_revision_is_compared_after_one_reading_of_today(book: Path) -> None:
    def git(*words: str) -> None:
        who = ("-c", "user.name=n", "-c", "user.email=n@example.org")
        subprocess.run(["git", "-C", str(book), *who, *words], check=True, capture_output=True)

    git("init", "-q")
    git("add", CAR, "book.yaml", "vehicles", "jobs", "housings")  # the other parts git never kept
    git("commit", "-qm", "one")
    with opened_under(book) as opened:
        now = open_book(book)
        with past_book(now, "HEAD") as past:
            compared(edition_of_book(past.book), edition_of_book(now))
    records = {path: count for path, count in opened.items() if path.suffix == ".yaml"}
    assert set(records.values()) == {1}, records


def spoil(book: Path) -> None:
    """Save, in every record of the book, something that nobody can read."""
    for path in book.rglob("*.yaml"):
        path.write_text(UNREADABLE, "utf-8")


def published(site: Path) -> dict[str, bytes]:
    """The files of a site that tell of the vehicle."""
    files = [*site.glob(f"*/{TANSY}*"), *site.glob("data/*/*"), *site.glob("data/*.*")]
    files += [site / "jobs" / f"{JOB}.html", *site.glob("assets/finder-*.js")]
    return {file.relative_to(site).as_posix(): file.read_bytes() for file in files}


def test_a_stop_saved_after_the_check_is_not_published(book: Path, tmp_path: Path) -> None:
    """A cavity used twice, saved between check and build: the site is that of what was checked."""
    build_site(check_book(open_book(book)), tmp_path / "before")
    checked = check_book(open_book(book))
    text = (book / CAR).read_text("utf-8")
    (book / CAR).write_text(text.replace("      - cavity: 11\n", "      - cavity: 7\n"), "utf-8")
    assert check_book(open_book(book)).failing
    build_site(checked, tmp_path / "site")
    assert published(tmp_path / "site") == published(tmp_path / "before")


@pytest.mark.parametrize("many", [False, True], ids=["alone", "forked"])
def test_a_build_outlasts_an_unreadable_save(
    book: Path, tmp_path: Path, many: bool, request: pytest.FixtureRequest
) -> None:
    if many:
        request.getfixturevalue("forking")
    checked = check_book(open_book(book))
    spoil(book)
    assert build_site(checked, tmp_path / "site").pages > 100
    assert check_book(open_book(book)).failing


def _described(book: Book) -> object:
    return described_vehicle(book, TANSY).as_data()


def _planned(book: Book) -> object:
    return planned(book, TANSY, "cvn-2a", "auto").as_data()


def _packed(book: Book) -> object:
    return packed(book, JOB).as_data()


@pytest.mark.parametrize("ask", [_described, _planned, _packed])
def test_an_open_book_answers_the_same_whatever_is_saved(
    book: Path, ask: Callable[[Book], object]
) -> None:
    before = ask(open_book(book))
    opened = open_book(book)
    spoil(book)
    assert ask(opened) == before


def test_a_file_that_came_later_is_not_of_an_open_book(book: Path) -> None:
    opened = open_book(book)
    names = [file.name for file in opened.files()]
    shutil.copy(book / CAR, book / "vehicles" / "ostrel" / "late.yaml")
    (book / "jobs" / f"{JOB}.yaml").unlink()
    assert [file.name for file in opened.files()] == names
    assert ("vehicle", "late") in [file.name for file in open_book(book).files()]


def test_a_newer_save_is_never_overwritten(book: Path) -> None:
    """`mend` and `tidy` write what they made of the text they read, or nothing."""
    path = book / CAR
    text = path.read_text("utf-8").replace("function: retained", "function: Retained", 1)
    path.write_text(text, "utf-8")
    opened = open_book(book)
    files = [file for file in opened.files() if file.path == path]
    newer = text + "# somebody is typing\n"
    path.write_text(newer, "utf-8")
    mended = mended_book(opened, files)
    assert mended.changed
    with pytest.raises(ChangedMeanwhileError):
        write_mended(mended)
    styled = [each._replace(new=each.old + "\n") for each in map(tidied_file, files)]
    with pytest.raises(ChangedMeanwhileError):
        write_tidied(styled)
    assert path.read_text("utf-8") == newer


def test_a_table_never_replaces_a_newer_save(book: Path, tmp_path: Path) -> None:
    table = tmp_path / "car.csv"
    opened = open_book(book)
    write_table(table, rows_of_vehicle(opened, TANSY))
    path = book / CAR
    path.write_text(path.read_text("utf-8") + "# newer\n", "utf-8")
    record = import_table(opened, table, replacing=True, as_is=True)
    assert record.old is not None and not record.held, record.findings
    with pytest.raises(ChangedMeanwhileError):
        write_imported(record)
    assert path.read_text("utf-8").endswith("# newer\n")


def test_a_file_that_was_never_taken_is_not_read_in_passing(book: Path) -> None:
    file = RecordFile("vehicle", book / CAR, CAR)
    with pytest.raises(RuntimeError, match="never taken"):
        text_of(file)


@pytest.mark.parametrize("made", ["dead link", "folder", "pipe"])
def test_what_is_called_like_a_record_and_is_none_is_found(small_book, made):
    place = small_book / "vehicles" / "ostrel" / "another.yaml"
    if made == "dead link":
        place.symlink_to("nowhere.yaml")
    elif made == "folder":
        place.mkdir()
    else:
        os.mkfifo(place)
    done = loombook("check", small_book)
    assert done.exit_code == 1
    assert "another.yaml:1:1: stop" in done.output


def test_the_same_content_is_parsed_once_however_many_ask(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Wherever it stands; and another content is parsed anew."""
    records._understood.cache_clear()
    parsed: list[str] = []
    real = records.parse_record

    def counted(kind: str, data: dict[str, Any]) -> Any:
        parsed.append(data["id"])
        return real(kind, data)

    monkeypatch.setattr(records, "parse_record", counted)
    check_book(open_book(small_book))
    assert len(parsed) == len(set(parsed)) > 20
    again = len(parsed)
    check_book(open_book(small_book))
    check_book(open_book(shutil.copytree(small_book, tmp_path / "copy")))
    assert len(parsed) == again
    changed = small_book / "converters" / "cvn-2a.yaml"
    changed.write_text(changed.read_text("utf-8") + "# looked at\n", "utf-8")
    check_book(open_book(small_book))
    assert parsed[again:] == ["cvn-2a"]


def test_what_one_caller_adds_to_its_findings_no_other_has(small_book: Path) -> None:
    file = next(file for file in open_book(small_book).files() if file.kind == "converter")
    first = records.read_record(file)
    first.findings.append(None)  # type: ignore[arg-type]
    assert records.read_record(file).findings == []

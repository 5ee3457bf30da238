"""Files no record can be: each command says so in a sentence, in little time and memory."""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
from pathlib import Path

import forked
import pytest
from shipped_book import PINOUTS

ONE_GIGABYTE = 1 << 30
HOLE_BYTES = 3_000_000_000


def one_more_gigabyte() -> None:
    """Let this process have no more than a gigabyte beyond what it has."""
    has = int(Path("/proc/self/statm").read_text("ascii").split()[0]) * resource.getpagesize()
    resource.setrlimit(resource.RLIMIT_AS, (has + ONE_GIGABYTE, has + ONE_GIGABYTE))


def command(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Run the command with a gigabyte of memory; a minute means that it hangs."""
    return forked.command(*arguments, before=one_more_gigabyte, timeout_s=60)


def test_the_limit_is_one(book: Path) -> None:
    """Else the tests below would show nothing of memory."""

    def too_much() -> None:
        one_more_gigabyte()
        bytearray(HOLE_BYTES)

    done = forked.command("check", book, before=too_much)
    assert done.returncode == 1 and "MemoryError" in done.stderr


def hole(path: Path) -> None:
    """A file of three thousand million bytes that takes no room on the disk."""
    with path.open("wb") as stream:
        stream.truncate(HOLE_BYTES)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A small book with a private root."""
    folder = tmp_path / "book"
    for kind in ("housings", "converters"):
        shutil.copytree(PINOUTS / kind, folder / "shared" / kind)
    (folder / "private" / "converters").mkdir(parents=True)
    roots = "[{path: shared, visibility: shared}, {path: private, visibility: private}]"
    (folder / "book.yaml").write_text(f"schema: 1\nroots: {roots}\n", "utf-8")
    return folder


GIVEN = {  # what names a file of its own, with FILE for it
    "import": ("import", "FILE.xlsx", "--book", "BOOK"),
    "import of text": ("import", "FILE.csv", "--book", "BOOK"),
    "evidence": ("evidence", "add", "FILE.yaml", "--book", "BOOK"),
    "identify": ("identify", "--from", "FILE.yaml", "--book", "BOOK"),
    "answers": ("new", "converter", "--answers", "FILE.yaml", "--book", "BOOK"),
}


def given(name: str, folder: Path, book: Path) -> tuple[list[str], Path]:
    """The arguments of a command and the file it is given."""
    words = [w.replace("BOOK", str(book)) for w in GIVEN[name]]
    file = folder / next(w for w in words if w.startswith("FILE")).replace("FILE", "given")
    return [str(file) if w.startswith("FILE") else w for w in words], file


@pytest.mark.parametrize("name", GIVEN)
def test_a_hole_of_three_gigabytes_is_refused_before_it_is_read(
    name: str, tmp_path: Path, book: Path
) -> None:
    arguments, file = given(name, tmp_path, book)
    hole(file)
    refused(command(*arguments), "is larger than")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
@pytest.mark.parametrize("name", GIVEN)
def test_a_pipe_is_refused_and_not_waited_for(name: str, tmp_path: Path, book: Path) -> None:
    arguments, file = given(name, tmp_path, book)
    os.mkfifo(file)
    refused(command(*arguments), "is no plain file")


def refused(done: subprocess.CompletedProcess[str], why: str) -> None:
    said = done.stdout + done.stderr
    assert done.returncode in (1, 2) and why in said, said
    assert "Traceback" not in said


def test_two_files_of_three_gigabytes_are_not_compared(tmp_path: Path) -> None:
    hole(tmp_path / "one.yaml")
    refused(command("diff", tmp_path / "one.yaml", tmp_path / "one.yaml"), "is no record")


RECORDS = ("shared/converters/hole.yaml", "private/converters/hole.yaml")
COMMANDS = {
    ("check",): "larger than 1048576 bytes",
    ("tidy", "--check"): "larger than 1048576 bytes",
    ("mend", "--dry-run"): "1 left that need you",
}


@pytest.mark.parametrize("place", RECORDS)
@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: words[0])
def test_a_record_of_three_gigabytes_is_refused_before_it_is_read(
    place: str, words: tuple[str, ...], book: Path
) -> None:
    hole(book / place)
    refused(command(*words, book), COMMANDS[words])


def test_settings_of_three_gigabytes_are_refused_before_they_are_read(book: Path) -> None:
    hole(book / "book.yaml")
    refused(command("check", book), "larger than 1048576 bytes")


def test_a_new_record_is_tried_beside_one_of_three_gigabytes(book: Path) -> None:
    hole(book / "shared" / "converters" / "hole.yaml")
    table = book.parent / "empty.csv"
    made = command("new", "table", table)
    assert made.returncode == 0, made.stderr
    done = command("new", "cable", "--book", book, "--dry-run", *CABLE)
    assert done.returncode == 0, done.stdout + done.stderr


CABLE = (
    *("--name", "Twin 14", "--use", "speaker_pair", "--size", "14 awg", "--jacket", "black"),
    *("--pairs", "red black", "--singles", "none", "--shield", "no"),
)


def test_eighty_thousand_unknown_keys_are_counted_and_the_first_told(book: Path) -> None:
    place = book / "shared" / "converters" / "cvn-2a.yaml"
    text = place.read_text("utf-8")
    place.write_text(text + "".join(f"k{n}: 1\n" for n in range(80_000)), "utf-8")
    done = command("check", book)
    lines = [line for line in done.stdout.splitlines() if "stop SCH" in line]
    assert len(lines) == 101 and "and 79900 more" in lines[-1]
    refused(command("mend", "--dry-run", "--book", book), "left that need you")

"""A disk that is full ends in a sentence, and nothing is left half written.

Three disks: one that is really small, where this user may mount one; the system's own limit on
the size of a file, which works everywhere; and one whose n-th write fails.
"""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import forked
import pytest
from killing import stopped_at
from shipped_book import ROOT, loombook
from test_killed_commands import (
    damaged_mend,
    evidence,
    imported,
    imported_again,
    new_vehicle,
    read_by_a_check,
    untidy_tidy,
)

from builder.cli.sentences import disk_sentence
from builder.store import FOLDER

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs limits of POSIX")
CAR = "ostrel-tansy-2017-hatch-base"
COMMANDS = [new_vehicle, damaged_mend, untidy_tidy, evidence, imported, imported_again]
Prepared = Callable[[Path], list[str]]


@pytest.fixture
def small_book(small_book: Path) -> Path:
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    return small_book


def limited(size_bytes: int, arguments: Sequence[object]) -> subprocess.CompletedProcess[str]:
    """Run the command where no file may grow beyond a size."""
    import resource

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (size_bytes, size_bytes))

    return forked.command(*arguments, before=limit)


def is_a_sentence(done: subprocess.CompletedProcess[str], says: str) -> None:
    assert done.returncode == 1, done.stdout + done.stderr
    assert says in done.stderr, done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    assert "site-packages" not in done.stderr  # what is full is named, not what was copied
    assert "Make room, then run the same command again" in done.stderr


def everything(folder: Path) -> dict[str, bytes]:
    """Every file but the store, which is never the truth and takes what room there is."""
    files = (path for path in folder.rglob("*") if path.is_file() and path.parent.name != FOLDER)
    return {str(path): path.read_bytes() for path in files}


def test_a_build_that_may_not_write_so_much_keeps_the_old_site(
    small_book: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert loombook("build", small_book, "-o", out / "site", "--zip", out / "a.zip").exit_code == 0
    before = everything(out)
    for size in (10, 3_000, 60_000):
        done = limited(size, ["build", small_book, "-o", out / "site", "--zip", out / "a.zip"])
        is_a_sentence(done, "the file would be larger than is allowed here")
        assert everything(out) == before
        assert sorted(path.name for path in out.iterdir()) == ["a.zip", "site"]


@pytest.mark.parametrize("prepared", COMMANDS)
def test_a_record_that_may_not_be_so_large_is_left_as_it_was(
    small_book: Path, prepared: Prepared
) -> None:
    arguments = prepared(small_book)
    before = everything(small_book)
    done = limited(10, arguments)
    is_a_sentence(done, "the file would be larger than is allowed here")
    assert everything(small_book) == before


def test_a_start_that_may_not_write_so_much_is_finished_by_the_next(tmp_path: Path) -> None:
    done = limited(2000, ["start", str(tmp_path / "ours"), "--alone"])
    is_a_sentence(done, "the file would be larger than is allowed here")
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    assert loombook("check", tmp_path / "ours").exit_code == 0
    assert list(tmp_path.rglob("*.tmp")) == []


@pytest.mark.parametrize("prepared", COMMANDS)
def test_a_record_is_old_or_new_whichever_write_finds_the_disk_full(
    small_book: Path, tmp_path: Path, prepared: Prepared
) -> None:
    arguments = prepared(small_book)
    kept = tmp_path / "kept"
    shutil.copytree(small_book, kept)
    old = read_by_a_check(small_book)
    loombook(*arguments)
    new = read_by_a_check(small_book)

    def full() -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), "a file")

    failed = 0
    for number in range(1, 12):
        shutil.rmtree(small_book)
        shutil.copytree(kept, small_book)
        with stopped_at(number, full, ("write", "fsync")):
            done = loombook(*arguments)
        found = read_by_a_check(small_book)
        for name in found.keys() | new.keys():
            assert found.get(name) in (old.get(name), new.get(name)), name
        assert list(small_book.rglob("*.tmp")) == []
        if "the disk is full" not in done.output:
            break
        failed += 1
        assert done.exit_code == 1
        assert done.exception is None or isinstance(done.exception, SystemExit)
    assert failed >= 2


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of its own with room for two sites of the small book and a little more."""
    place = tmp_path / "disk"
    place.mkdir()
    if shutil.which("mount") is None or os.getuid() != 0:
        pytest.skip("this user may not mount a disk")
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=18m", "tmpfs", str(place)], check=False
    )
    if mounted.returncode:
        pytest.skip("no disk can be mounted here")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def fill(disk: Path, leave_bytes: int) -> Path:
    filler = disk / "filler"
    with filler.open("wb", buffering=0) as stream:
        free = os.statvfs(disk)
        for _ in range((free.f_bavail * free.f_frsize - leave_bytes) // 4096):
            stream.write(b"x" * 4096)
    return filler


@pytest.mark.parametrize("leave_bytes", [0, 1_000_000])
def test_a_site_on_a_full_disk_stays_and_is_built_when_there_is_room(
    small_book: Path, small_disk: Path, leave_bytes: int
) -> None:
    site = small_disk / "site"
    assert forked.command("build", small_book, "-o", site).returncode == 0
    before = everything(site)
    filler = fill(small_disk, leave_bytes)
    whole = ("build", small_book, "-o", site, "--no-store")
    is_a_sentence(forked.command(*whole), "the disk is full")
    assert everything(site) == before
    assert sorted(path.name for path in small_disk.iterdir()) == ["filler", "site"]
    filler.unlink()
    assert forked.command("build", small_book, "-o", site).returncode == 0


def test_a_zip_on_a_full_disk_keeps_the_old_zip_beside_the_new_site(
    small_book: Path, tmp_path: Path, small_disk: Path
) -> None:
    (small_disk / "a.zip").write_bytes(b"the old one")
    fill(small_disk, 200_000)
    done = forked.command(
        "build", small_book, "-o", tmp_path / "site", "--zip", small_disk / "a.zip"
    )
    is_a_sentence(done, "the site is written, its zip is not")
    assert (tmp_path / "site" / "index.html").is_file()
    assert (small_disk / "a.zip").read_bytes() == b"the old one"
    assert sorted(path.name for path in small_disk.iterdir()) == ["a.zip", "filler"]


@pytest.mark.parametrize("prepared", COMMANDS)
def test_a_book_on_a_full_disk_stays_as_it_was(
    small_book: Path, small_disk: Path, prepared: Prepared
) -> None:
    book = small_disk / "book"
    shutil.copytree(small_book, book)
    arguments = prepared(book)
    fill(small_disk, 0)
    before = everything(book)
    is_a_sentence(forked.command(*arguments), "the disk is full")
    assert everything(book) == before


def test_a_full_place_for_temporary_things_is_told(small_book: Path, small_disk: Path) -> None:
    """In an interpreter that knows neither such a place yet nor a shell that was built in it."""
    fill(small_disk, 40_000)  # a place with no room at all is not taken for such things
    site = small_book.parent / "site"
    done = subprocess.run(
        [sys.executable, "-m", "builder", "build", str(small_book), "-o", str(site)],
        cwd=ROOT,
        env={**os.environ, "TMPDIR": str(small_disk)},
        capture_output=True,
        text=True,
        check=False,
    )
    is_a_sentence(done, "the disk is full")
    assert not site.exists()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no such device")
def test_what_cannot_be_printed_is_told_too(small_book: Path) -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "builder", "show", CAR, "--book", str(small_book)],
            cwd=ROOT,
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert done.returncode == 1
    assert "the disk is full" in done.stderr and "Traceback" not in done.stderr


@pytest.mark.parametrize(
    ("error", "says"),
    [
        (OSError(errno.EROFS, "x", "/a/b"), "/a/b: the disk can only be read"),
        (PermissionError(errno.EACCES, "x", b"/a/b"), "/a/b: this user may not do that"),
        (OSError(errno.EINVAL, "it is no plain file", "/a"), "/a: it is no plain file"),
        (
            OSError(errno.ENAMETOOLONG, os.strerror(errno.ENAMETOOLONG)),
            os.strerror(errno.ENAMETOOLONG).lower(),
        ),
        (OSError("a sentence of ours"), "a sentence of ours"),
    ],
)
def test_another_refusal_of_a_disk_is_a_sentence_too(error: OSError, says: str) -> None:
    assert disk_sentence(error) == says

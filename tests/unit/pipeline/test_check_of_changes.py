"""`check --changed-since`: what a proposal can touch, the whole book where that is all of it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from borrowing import change, git
from shipped_book import loombook

TANSY = "ostrel-tansy-2017-hatch-base"
CAR = Path("vehicles") / "ostrel" / f"{TANSY}.yaml"


@pytest.fixture
def kept(small_book: Path) -> Path:
    """A book under git with a fault in an amplifier that nobody changes."""
    change(small_book / "amplifiers" / "amn-4.yaml", "min_v: 9.0", "min_v: 9.0 V")
    git(small_book, "init", "-q")
    git(small_book, "add", ".")
    git(small_book, "commit", "-q", "-m", "first")
    return small_book


def found(book: Path, since: str = "HEAD") -> tuple[int, int, list[str]]:
    """The exit code, how many records were looked at, and the files that fail."""
    done = loombook("check", book, "--changed-since", since, "--format", "json")
    told = json.loads(done.stdout)
    return done.exit_code, told["records"], [Path(f["file"]).name for f in told["findings"]]


def test_nothing_changed_and_an_old_fault_is_not_the_proposals(kept):
    assert found(kept) == (0, 0, [])


def test_a_changed_car_is_checked_with_what_it_names_and_nothing_else(kept):
    change(kept / CAR, "base: pink", "base: Pink")
    visits = len(list((kept / "visits" / TANSY).iterdir()))
    assert found(kept) == (1, 1 + visits, [CAR.name])  # a car is judged with its visits
    change(kept / CAR, "base: Pink", "base: pink")
    (kept / CAR).write_text((kept / CAR).read_text("utf-8") + "# seen again\n", "utf-8")
    code, records, files = found(kept)
    assert code == 0 and "amn-4.yaml" not in files
    assert 1 < records < json.loads(loombook("check", kept, "--format", "json").stdout)["records"]


def test_what_was_committed_since_counts_and_what_git_does_not_know_yet(kept):
    change(kept / CAR, "base: pink", "base: Pink")
    git(kept, "commit", "-q", "-a", "-m", "second")
    (kept / "housings" / "new-one.yaml").write_text("schema: 1\n", "utf-8")
    assert set(found(kept, "HEAD~1")[2]) == {CAR.name, "new-one.yaml"}
    assert set(found(kept)[2]) == {"new-one.yaml"}


@pytest.mark.parametrize("what", ["gone", "settings"])
def test_what_can_touch_everything_has_the_whole_book_checked(kept, what):
    if what == "gone":
        (kept / CAR).unlink()
    else:
        (kept / "book.yaml").write_text("schema: 1\n", "utf-8")
    assert "amn-4.yaml" in found(kept)[2]


def test_a_file_beside_the_records_has_nothing_checked(kept):
    (kept / ".github").mkdir()
    (kept / ".github" / "work.yml").write_text("on: push\n", "utf-8")
    assert found(kept) == (0, 0, [])


@pytest.mark.parametrize("since", ["nowhere", "--output=x", "-p"])
def test_a_revision_that_is_none_is_said(kept, since):
    done = loombook("check", kept, f"--changed-since={since}")
    assert done.exit_code == 2 and f'git knows no revision "{since}"' in done.stderr


def test_no_repository_and_files_beside_it_are_said(small_book, kept):
    done = loombook("check", kept / CAR, "--changed-since", "HEAD")
    assert done.exit_code == 2 and "name a book, not files of it" in done.stderr

"""A visit that came by a commit of its contributor's key is signed; by any other it is not."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from borrowing import change, git, repository
from evidence_book import BRINDLE, small_book
from shipped_book import loombook
from shipped_cars import typed_in_one
from visited_book import visit_files

from builder.book import open_book
from builder.pipeline.checking.signatures import Signatures, check_signatures

SHOP, OTHER = "quayside-fitters", "tolling-lane-garage"


@pytest.fixture
def keys(tmp_path: Path) -> Path:
    for name in (SHOP, OTHER):
        made = ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", str(tmp_path / name)]
        subprocess.run(made, check=True)
    return tmp_path


@pytest.fixture
def book(tmp_path: Path, keys: Path) -> Path:
    """A book under git whose visits are not in it yet; both shops have a key."""
    folder = small_book(tmp_path / "book")
    for name in (SHOP, OTHER):
        public = " ".join((keys / f"{name}.pub").read_text("utf-8").split()[:2])
        record = folder / "contributors" / f"{name}.yaml"
        record.write_text(f"{record.read_text('utf-8')}public_keys: [{public}]\n", "utf-8")
    typed_in_one(folder)
    repository(folder)
    assert loombook("mend", "--visits", "-b", folder).exit_code == 0
    return folder


def commit(book: Path, key: Path) -> None:
    """Commit all that is new, signed with a key."""
    git(book, "add", "-A")
    said = ("-c", "gpg.format=ssh", "-c", f"user.signingkey={key}")
    git(book, *said, "commit", "-q", "-S", "-m", "visits")


def looked(book: Path) -> Signatures:
    opened = open_book(book)
    return check_signatures(opened, [f for f in opened.files() if BRINDLE in f.path.as_posix()])


def rules(found: Signatures) -> list[str]:
    return [finding.rule_id for finding in found.findings]


def test_a_visit_that_came_by_a_signed_commit_is_signed(book, keys):
    assert (looked(book).visits, rules(looked(book))) == (0, ["BOK123", "BOK123"])
    commit(book, keys / SHOP)
    found = looked(book)
    assert (found.visits, rules(found)) == (1, ["BOK123"])  # the other's key did not sign it
    assert OTHER in found.findings[0].message
    assert (
        "signed and verified: 1 visit, 0 records" in loombook("check", book, "--signatures").output
    )


def test_a_figure_that_was_changed_later_is_not_what_was_signed(book, keys):
    commit(book, keys / SHOP)
    (path,) = [path for path in visit_files(book, BRINDLE) if SHOP in path.name]
    change(path, "state: accessory", "state: run")
    assert looked(book).visits == 0
    commit(book, keys / SHOP)
    assert looked(book).visits == 0  # the commit that brought it says something else


def test_a_visit_that_is_withdrawn_or_turned_is_still_signed(book, keys):
    commit(book, keys / SHOP)
    (path,) = [path for path in visit_files(book, BRINDLE) if SHOP in path.name]
    loombook("visit", "withdraw", path, "--because", "its meter was broken", "-b", book)
    assert looked(book).visits == 1


def test_an_unsigned_commit_signs_nothing(book):
    repository(book, "visits")
    assert looked(book).visits == 0

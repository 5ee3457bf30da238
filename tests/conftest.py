"""What many tests need: the shipped book, small books of their own, and the command."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.book import open_book
from builder.cli import main
from builder.pipeline.checking import CheckedBook, check_book

ROOT = Path(__file__).resolve().parents[1]
PINOUTS = ROOT / "pinouts"


@pytest.fixture(scope="session")
def shipped() -> CheckedBook:
    """The shipped book, checked once."""
    return check_book(open_book(PINOUTS))


@pytest.fixture
def small_book(tmp_path: Path) -> Path:
    """A writable book of one well-proved vehicle, its sister kinds, and all parts."""
    book = tmp_path / "book"
    for kind in ("housings", "converters", "amplifiers", "cables"):
        shutil.copytree(PINOUTS / kind, book / kind)
    shutil.copytree(PINOUTS / "vehicles" / "ostrel", book / "vehicles" / "ostrel")
    return book


def loombook(*arguments: str | Path) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(main, [str(argument) for argument in arguments])

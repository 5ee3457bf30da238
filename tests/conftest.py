"""What many tests need: the shipped book, and small books of their own."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from shipped_book import PINOUTS

from builder.book import open_book
from builder.pipeline.checking.book_check import CheckedBook, check_book


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

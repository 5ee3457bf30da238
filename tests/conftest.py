"""What many tests need: the shipped book, and small books of their own."""

from __future__ import annotations

import fcntl
import shutil
from pathlib import Path

import pytest
from hypothesis import settings
from samples import many
from shipped_book import PINOUTS, loombook

from builder.book import open_book
from builder.pipeline.checking.book_check import CheckedBook, check_book

# Where a drawn test does not say how much it draws.
settings.register_profile("suite", max_examples=many(100), deadline=None)
settings.load_profile("suite")


@pytest.fixture(scope="session")
def shipped() -> CheckedBook:
    """The shipped book, checked once."""
    return check_book(open_book(PINOUTS))


@pytest.fixture(scope="session")
def shipped_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the shipped book, to be read and not written; built once for all workers."""
    own = tmp_path_factory.getbasetemp()
    shared = own.parent if own.name.startswith("popen-") else own
    site = shared / "shipped" / "site"
    site.parent.mkdir(exist_ok=True)
    with (shared / "shipped.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not site.exists():
            done = loombook("build", PINOUTS, "--output", site)
            assert done.exit_code == 0, done.output
    return site


@pytest.fixture
def small_book(tmp_path: Path) -> Path:
    """A writable book of one well-proved vehicle, its sister kinds, and all parts."""
    book = tmp_path / "book"
    for kind in ("housings", "converters", "amplifiers", "cables"):
        shutil.copytree(PINOUTS / kind, book / kind)
    shutil.copytree(PINOUTS / "vehicles" / "ostrel", book / "vehicles" / "ostrel")
    return book

"""What many tests need: the shipped book, and small books of their own."""

from __future__ import annotations

import gc
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from built_once import built_once
from hypothesis import settings
from samples import many
from shipped_book import FOLDERS_OF_PARTS, PINOUTS
from shipped_cars import copy_makers

from builder.book import open_book
from builder.pipeline.checking.book_check import CheckedBook, check_book

if TYPE_CHECKING:
    from chromium import Browser  # and with it the driver, only where a test asks for it

# Where a drawn test does not say how much it draws.
settings.register_profile("suite", max_examples=many(100), deadline=None)
settings.load_profile("suite")


# Where commands keep the key of who runs them: none is left in the home of who runs the tests.
_STATE = tempfile.TemporaryDirectory(prefix="loombook-tests-")
os.environ["XDG_STATE_HOME"] = _STATE.name

# The default looks for cycles every 700 new objects, and one check of a book makes a million.
gc.set_threshold(100_000, 20, 50)


@pytest.hookimpl(trylast=True)
def pytest_collection_finish() -> None:
    """Let no collector look at what stays until the end, nor copy it in every forked child."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session")
def shipped() -> CheckedBook:
    """The shipped book, checked once."""
    return check_book(open_book(PINOUTS))


@pytest.fixture(scope="session")
def shipped_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the shipped book, to be read and not written; built once for all workers."""
    return built_once(tmp_path_factory, "shipped", PINOUTS)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for all tests of a worker."""
    from chromium import Browser

    browser = Browser()
    yield browser
    browser.driver.quit()


@pytest.fixture
def small_book(tmp_path: Path) -> Path:
    """A writable book of one well-proved vehicle, its sister kinds, and all parts."""
    book = tmp_path / "book"
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, book / kind)
    copy_makers(book, "ostrel")
    return book

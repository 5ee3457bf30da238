"""Which files of a folder hold the settings of a book; none of them is read here."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from builder.book.record_files import FOLDERS, Root, shown_path

SETTINGS_FILE: Final = "book.yaml"
OTHER_SETTINGS_FILE = "loombook.yaml"
LOCK_FILE: Final = "books.lock"
_NAMES = (SETTINGS_FILE, OTHER_SETTINGS_FILE)


class BookNotFoundError(Exception):
    """The folder does not hold a book; the message says what to type."""


def settings_file(folder: Path) -> Path | None:
    """The settings file of a folder, or None.

    Raises:
        BookNotFoundError: it has both files that could be it.
    """
    there = [folder / name for name in _NAMES]
    # A folder or a link to nowhere of that name too: without its settings a book is another one.
    there = [path for path in there if os.path.lexists(path)]
    if len(there) > 1:
        raise BookNotFoundError(
            f"{shown_path(folder)} has both {SETTINGS_FILE} and {OTHER_SETTINGS_FILE}: put "
            "everything into one of them and delete the other"
        )
    return there[0] if there else None


def holds_settings(folder: Path) -> bool:
    """Whether a folder has a file of settings that can be read."""
    return any((folder / name).is_file() for name in _NAMES)


def holds_book(folder: Path) -> bool:
    """Whether a folder has a settings file or one of the record folders.

    Raises:
        BookNotFoundError: it has both files that could hold its settings.
    """
    return settings_file(folder) is not None or any((folder / name).is_dir() for name in FOLDERS)


def lent_from(folder: Path, roots: Sequence[Root]) -> Iterator[Path]:
    """Yield, once each, the folders of other books with settings that stand around these roots.

    `folder` holds the book that draws on them.
    """
    seen = {folder.resolve()}
    for root in roots:
        for place in (root.folder, root.folder / ".."):
            if holds_settings(place):
                home = place.resolve()
                if home not in seen:
                    seen.add(home)
                    yield place
                break

"""Which record files of a book a path names: one of them, or a folder that they are in."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path


class NotInBookError(Exception):
    """A path that names no record of the book; the message says what to type."""


def named_files(files: Iterable[Path], path: Path) -> list[Path]:
    """Return those of the files that a path names, links followed; none where it names none."""
    place = path.resolve()
    return [at for at in files if (real := at.resolve()) == place or place in real.parents]

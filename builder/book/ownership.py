"""Which folders of a book are its own, and which it only borrows from a book kept by others."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from builder.book.locked import LOCKED_FOLDER
from builder.book.record_files import Root
from builder.book.settings_files import OTHER_SETTINGS_FILE, SETTINGS_FILE


def own_roots(home: Path, roots: Sequence[Root]) -> list[Root]:
    """The roots that a book's own records stand in: all of them when none is in its folder."""
    return [root for root in roots if _is_own(home, root)] or list(roots)


def lenders_of(home: Path, roots: Sequence[Root], paths: Iterable[Path]) -> dict[Path, Path | None]:
    """The folder of the shared book that each record file belongs to, None for an own file.

    Links are followed: a file is judged by where its bytes are. A book that borrows nothing, as
    most are, has no file looked at.
    """
    own = own_roots(home, roots)
    if len(own) == len(roots):
        return dict.fromkeys(paths)
    places = {root.folder.resolve(): root for root in roots}
    return {path: _lender(path.resolve(), places, own) for path in paths}


def _lender(place: Path, places: Mapping[Path, Root], own: Sequence[Root]) -> Path | None:
    holding = [folder for folder in places if place.is_relative_to(folder)]
    if not holding:
        return None
    inner = places[max(holding, key=lambda folder: len(folder.parts))]
    return None if inner in own else _book_around(inner.folder)


def _is_own(home: Path, root: Root) -> bool:
    """Whether a root is in the book's folder, and no other book's settings stand in it."""
    here, place = home.resolve(), root.folder.resolve()
    if place.is_relative_to(here / LOCKED_FOLDER):
        return False
    return place == here or (place.is_relative_to(here) and not _has_settings(place))


def _book_around(folder: Path) -> Path:
    """The folder to name a book by: where its settings stand, else that of its records."""
    parent = folder / ".."
    return parent if _has_settings(parent) and not _has_settings(folder) else folder


def _has_settings(folder: Path) -> bool:
    return any((folder / name).is_file() for name in (SETTINGS_FILE, OTHER_SETTINGS_FILE))

"""Where the records of a book stand and what it renames, as its settings were read before.

Who completes a word waits for neither schemas nor a reader of YAML. What was read of settings is a
row of the store, under their bytes: it is taken only where nothing else has a say in it, no lock
and no book of others, and kept only where a store is already.
"""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from builder.book.newest_names import OldAndNew
from builder.book.record_files import Name, Root
from builder.book.settings_files import LOCK_FILE, lent_from, settings_file
from builder.bounded_file import read_bounded
from builder.model.words import RecordKind
from builder.store import Store, store_of, sum_of, tool_state

_MOST_BYTES = 1_000_000
"""Larger settings are read by who says what is wrong with them."""


class KnownRenaming(NamedTuple):
    """One line of the table of old names."""

    kind: RecordKind
    was: str
    now: str

    @property
    def old(self) -> Name:
        """What it renames, by kind and old id."""
        return (self.kind, self.was)


class KnownRoots(NamedTuple):
    """The folders of records of a book, and the lines of its table of old names."""

    roots: tuple[Root, ...]
    renamings: tuple[OldAndNew, ...]


def known_roots(folder: Path) -> KnownRoots | None:
    """Return what is known of the book in a folder; None where its settings are to be read.

    Raises:
        BookNotFoundError: it has two settings files.
    """
    asked = _asked(folder)
    row = asked[0].get([asked[1]]).get(asked[1]) if asked else None
    if row is None:
        return None
    roots, renamings = json.loads(row)
    found = tuple(Root(folder / place, visibility) for place, visibility in roots)
    if any(lent_from(folder, found)):
        return None
    return KnownRoots(found, tuple(KnownRenaming(*each) for each in renamings))


def keep_roots(folder: Path, roots: Sequence[Root], renamings: Sequence[OldAndNew]) -> None:
    """Keep what the settings of the book in a folder say, where they alone say it."""
    asked = _asked(folder)
    if asked and not any(lent_from(folder, roots)):
        places = [(_place_in(folder, root.folder), root.visibility) for root in roots]
        lines = [(*one.old, one.now) for one in renamings]
        asked[0].put({asked[1]: json.dumps([places, lines]).encode("utf-8", "surrogatepass")})


def _place_in(folder: Path, root: Path) -> str:
    """What the folder of the book is joined with to get a root."""
    return str(root.relative_to(folder) if root.is_relative_to(folder) else root)


def _asked(folder: Path) -> tuple[Store, str] | None:
    """The store of the book and the key of the row about its settings; None without either."""
    store = store_of(folder)
    if store.folder is None or not store.folder.is_dir() or os.path.lexists(folder / LOCK_FILE):
        return None
    file = settings_file(folder)
    try:
        said = (file.name, read_bounded(file, _MOST_BYTES).decode("latin-1")) if file else ()
    except OSError:
        return None
    return store, sum_of(("roots", tool_state(), *said))

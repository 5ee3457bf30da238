"""What an earlier look found in a book's files: one that stands as it did then is not read again.

It is told by what a disk says of a file: its size, its number and both its times. The time of the
last change of anything of it (`ctime`) is set by the system alone, so that no tool can save a text
and put it back; where there is none, every file is read. A file that was changed about when it was
looked at is read again too: two saves within one step of a disk's clock look alike.
"""

from __future__ import annotations

import json
import os
import sys
import time
from pathlib import Path
from typing import Any

from builder.loading import Taken, take_file
from builder.store import Store, sum_of

_FORM = "looks 1"
_HAS_CTIME = sys.platform != "win32"
_MARGIN_NS = 2_000_000_000
"""The coarsest step in which a disk tells time."""

_Stand = list[int]
"""Size, both times in ns, number and device of a file."""
_Look = list[Any]
"""The same, and the digest of what was read."""


class Looks:
    """What is known of the files of one book, and what this look adds to it."""

    def __init__(self, store: Store, folder: Path) -> None:
        self._store = store
        self._start = f"{folder}{os.sep}"
        self._key = sum_of((_FORM, os.path.abspath(folder)))  # noqa: PTH100 - no link is followed
        self._known = self._read() if _HAS_CTIME else {}
        self._seen: dict[str, _Look] = {}
        self._changed = False
        self._settled_ns = time.time_ns() - _MARGIN_NS

    def take(self, path: Path) -> Taken:
        """What stands at a path: from an earlier look where it stands as then, else read now."""
        name = self._name_of(str(path))
        known = self._known.get(name)
        stand = stand_of(path)
        if known is not None and stand == known[:-1]:
            self._seen[name] = known
            return Taken.known(path, known[-1])
        taken = take_file(path)
        if stand is not None and taken.refusal is None and self._is_settled(path, stand):
            self._seen[name] = [*stand, taken.digest]
            self._changed = True
        return taken

    def _name_of(self, path: str) -> str:
        """A path as this book's own, however its folder is named by who asks."""
        start = self._start
        return path[len(start) :] if path.startswith(start) else os.path.abspath(path)  # noqa: PTH100

    def _is_settled(self, path: Path, stand: _Stand) -> bool:
        """Whether a file stands after it was read as before, and was left alone for a while."""
        return _HAS_CTIME and max(stand[1:3]) < self._settled_ns and stand_of(path) == stand

    def keep(self) -> None:
        """Put what this look found into the store, in the place of what was known."""
        if self._changed or len(self._seen) != len(self._known):
            self._store.put({self._key: json.dumps(self._seen).encode("utf-8", "surrogatepass")})

    def _read(self) -> dict[str, _Look]:
        row = self._store.get([self._key]).get(self._key)
        known: dict[str, _Look] = json.loads(row) if row else {}
        return known


def stand_of(path: str | Path) -> _Stand | None:
    """What a disk says of the file at a path, wherever a link there leads; None where it is not."""
    try:
        about = os.stat(path)  # noqa: PTH116 - asked of each of ten thousand
    except (OSError, ValueError):
        return None
    times = (about.st_mtime_ns, about.st_ctime_ns)
    return [about.st_size, *times, about.st_ino, about.st_dev]

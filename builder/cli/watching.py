"""When `loombook serve` looks at its book: at once when something was saved, else now and then.

What the disk says of every file is asked some times a second, which reads none of them. It says
when a look is worth its time and which files it is about; a look alone says what is shown. A tool
may set a date, and a disk far away may tell times in steps: so there is a look at every file now
and then though nothing seems to have moved.
"""

from __future__ import annotations

import gc
import os
import time
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Protocol

from builder.book.looks import stand_of
from builder.rendering.standing_site import files_in

SOON_S, USUAL_S = 0.25, 1.0
SAVED_S = 0.1
"""How long a file is let alone between the two looks that must agree before it is shown."""
SCAN_REST, LOOK_REST, IDLE_REST = 19, 9, 49
"""Rest in the time that work took: after a scan, a twentieth of a processor goes into scans; after
a look at what moved before the next scan, so that looks take a tenth at most though files move all
the time; and between looks while nothing moves. What was built after a look is not counted: who
saves once more does not wait for that."""
MOST_UNCOLLECTED = 50_000
"""New objects that are alive after looks; so many are looked through in some ten milliseconds."""

_Stand = tuple[object, ...]
"""What a disk says of a file."""
Scan = frozenset[_Stand]
Moved = frozenset[Path] | None
"""The files that moved between two scans, None where any file may have."""


class Looking(Protocol):
    """What looks at a book, and shows what it found."""

    look_s: float
    """What the last look took, building aside."""

    @property
    def settings_folders(self) -> Iterable[Path]:
        """Folders that have files of the book; what is in folders below is not its own."""
        ...

    @property
    def record_folders(self) -> Iterable[Path]:
        """Folders that have files of the book, with all that is below."""
        ...

    def look_again(self, moved: Moved = None) -> bool:
        """Look at what moved since the look before; False when the book is just being saved."""
        ...


def watch(looking: Looking) -> None:
    """Look again and again, for ever."""
    scan, moved = scanned(looking), None
    while True:
        settled = looking.look_again(moved)
        _collect_in_peace()
        if settled:
            scan, moved = _rest(scan, looking, looking.look_s if moved else 0.0)
        else:
            time.sleep(SAVED_S)
            scan, moved = _scanned_since(scan, looking)


def _scanned_since(before: Scan, looking: Looking) -> tuple[Scan, Moved]:
    """Scan, and tell what moved; what is saved during a look is seen by the scan after it."""
    scan = scanned(looking)
    return scan, frozenset(Path(str(stand[0])) for stand in scan ^ before)


def scanned(looking: Looking) -> Scan:
    """Return what the disk says of all that a book may have read; nothing of what is not there."""
    shallow = (each for folder in looking.settings_folders for each in _files_in(folder))
    deep = (each for folder in looking.record_folders for each in _files_below(folder))
    return frozenset((*shallow, *deep))


def _files_in(folder: Path) -> Iterator[_Stand]:
    with suppress(OSError), os.scandir(folder) as found:
        for entry in found:
            if not entry.is_dir(follow_symlinks=False):
                yield _told(entry.path)


def _files_below(folder: Path) -> Iterator[_Stand]:
    with suppress(OSError):
        for place in files_in(str(folder)):
            yield _told(f"{folder}{os.sep}{place}")


def _told(path: str) -> _Stand:
    return (path, *(stand_of(path) or ()))


def _rest(scan: Scan, looking: Looking, look_s: float) -> tuple[Scan, Moved]:
    """Wait until something moved since a scan, or a look is due.

    `look_s` is what a look took because something had moved.
    """
    due = time.monotonic() + max(USUAL_S, IDLE_REST * looking.look_s)
    pause_s = max(SOON_S, LOOK_REST * look_s)
    while time.monotonic() < due:
        time.sleep(pause_s)
        begun = time.monotonic()
        now, moved = _scanned_since(scan, looking)
        if moved:
            return now, moved
        pause_s = max(SOON_S, SCAN_REST * (time.monotonic() - begun))
    return scan, None


def _collect_in_peace() -> None:
    """Throw away what the last looks left in cycles; what is alive is not looked through again.

    In the middle of a look it would keep the reader waiting, who now has the page already.
    """
    if gc.get_count()[0] > MOST_UNCOLLECTED:
        gc.collect()
        gc.freeze()

"""Files and folders that stand only while work is done, and clearing what killed work left behind.

Each is held by a lock from its first moment on. The system takes a lock away from whoever ends,
in whatever way; so what bears such a name and is held by nobody was left behind, and what
another build is still working in is held and stays.

Ctrl-C waits until files that belong together have all taken their places (`undisturbed`).
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import stat
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import FrameType

if sys.platform != "win32":
    import fcntl

STALE_S = 7 * 86400
"""Where no locks are to be had, what nobody touched for so long was left behind: chosen by this
project, longer than any build and than a `serve` is likely to stand without a change."""
_RANDOM = "[a-z0-9_]{8}"  # what tempfile puts behind a prefix


class _Waiting:
    """What is told of Ctrl-C while nobody may be disturbed, and remembers it."""

    came = False

    def __call__(self, number: int, frame: FrameType | None) -> None:
        self.came = True


@contextmanager
def undisturbed() -> Iterator[None]:
    """Let Ctrl-C wait for the end of the block; it is raised there. Only where it would be heard.

    Meant for the few moments in which files are put in their places: not for work that lasts.
    """
    before = signal.getsignal(signal.SIGINT)
    here = threading.current_thread() is threading.main_thread()
    if not here or isinstance(before, _Waiting) or not callable(before):
        yield
        return
    waiting = _Waiting()
    signal.signal(signal.SIGINT, waiting)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
    if waiting.came:
        raise KeyboardInterrupt


@contextmanager
def work_folder() -> Iterator[Path]:
    """Yield an empty folder in the system's place for such; it is gone afterwards."""
    with held_folder(Path(tempfile.gettempdir()), "loombook-work-") as folder:
        yield folder


@contextmanager
def held_folder(parent: Path, start: str) -> Iterator[Path]:
    """Yield an empty folder in `parent`, its name beginning with `start`; it is gone afterwards.

    What killed work left under such a name is removed first.
    """
    clear(parent, re.compile(re.escape(start) + _RANDOM))
    place, lock = _new_held(lambda: Path(tempfile.mkdtemp(prefix=start, dir=parent)))
    try:
        yield place
    finally:
        shutil.rmtree(place, ignore_errors=True)
        let_go(lock)


@contextmanager
def held_file(parent: Path, start: str) -> Iterator[Path]:
    """Yield an empty file in `parent`, its name beginning with `start`; it is gone afterwards.

    What killed work left under such a name is removed first.
    """
    clear(parent, re.compile(re.escape(start) + _RANDOM))

    def made() -> Path:
        number, name = tempfile.mkstemp(prefix=start, dir=parent)
        os.close(number)
        return Path(name)

    place, lock = _new_held(made)
    try:
        yield place
    finally:
        with suppress(OSError):
            place.unlink()
        let_go(lock)


def clear(folder: Path, name: re.Pattern[str]) -> None:
    """Remove what bears such a name in `folder`, belongs to this user and is held by nobody."""
    with suppress(OSError):
        for found in sorted(folder.iterdir()):
            if name.fullmatch(found.name):
                _clear_one(found)


def is_held(place: Path) -> bool:
    """Whether somebody works in a file or folder at this moment, as far as the system can tell."""
    try:
        lock = opened_to_hold(place)
        try:
            return lock is None or not locked(lock)
        finally:
            let_go(lock)
    except OSError:
        return True


def hold(number: int) -> bool:
    """Hold an open file until it is closed; False when somebody else holds it.

    True, too, where the disk has no locks.
    """
    try:
        return locked(number)
    except OSError:
        return True


def _new_held(make: Callable[[], Path]) -> tuple[Path, int | None]:
    """What `make` makes, held. What another cleared before it was held is made again."""
    while True:
        place = make()
        lock = opened_to_hold(place)
        if lock is None or (hold(lock) and os.path.lexists(place)):
            return place, lock
        os.close(lock)


def _clear_one(place: Path) -> None:
    """Remove a file or folder, holding it meanwhile, unless somebody else does."""
    with suppress(OSError):
        about = place.lstat()
        if hasattr(os, "getuid") and about.st_uid != os.getuid():
            return
        lock = opened_to_hold(place)
        try:
            if not _is_left(lock, about.st_mtime):
                return
            if stat.S_ISDIR(about.st_mode):
                shutil.rmtree(place, ignore_errors=True)
            else:
                place.unlink()
        finally:
            let_go(lock)


def _is_left(lock: int | None, touched_s: float) -> bool:
    if lock is not None:
        with suppress(OSError):
            return locked(lock)
    return time.time() - touched_s > STALE_S


def opened_to_hold(place: Path) -> int | None:
    """A number to hold a file or folder by; None where the system has none."""
    if sys.platform == "win32":
        return None
    return os.open(place, os.O_RDONLY | os.O_NOFOLLOW | os.O_CLOEXEC)


def locked(number: int) -> bool:
    """Lock an open file, or say that somebody else has. OSError where there are no locks."""
    if sys.platform == "win32":
        return True
    try:
        fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True


def let_go(lock: int | None) -> None:
    """Let others hold what was opened to hold."""
    if lock is not None:
        os.close(lock)

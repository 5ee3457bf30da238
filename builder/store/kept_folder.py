"""A folder beside a store that one process at a time works in, and that stays when it ends."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from builder.store.kept_rows import make_folder
from builder.unfinished import let_go, locked, opened_to_hold


class KeptFolder:
    """The folder at `place`, which is in that of a store.

    Who holds it knows that no other process of this tool changes anything in it. A folder may be
    deleted at any time, with its lock: so it is asked for again before each piece of work.
    """

    def __init__(self, place: Path) -> None:
        self.place = place
        self._lock: int | None = None

    @property
    def is_held(self) -> bool:
        """Whether the folder that this process holds is still at its place."""
        if self._lock is None:
            return False
        try:
            return os.path.samestat(os.fstat(self._lock), self.place.lstat())
        except OSError:
            return False

    def hold(self) -> bool:
        """Hold the folder, making it where there is none; False where that cannot be.

        It cannot where another process holds it, the system or the disk has no locks, nothing can
        be written, it is another user's or others may write in it, or a link leads away from here.
        """
        if self.is_held:
            return True
        self.end()
        try:
            self._lock = self._held_now()
        except OSError:
            return False
        if self.is_held:  # else it was taken away before it was held
            return True
        self.end()
        return False

    def end(self) -> None:
        """Let the next process have it."""
        let_go(self._lock)
        self._lock = None

    def _held_now(self) -> int | None:
        make_folder(self.place.parent)
        self.place.mkdir(mode=0o700, exist_ok=True)
        lock = opened_to_hold(self.place)
        if lock is None:
            return None
        try:
            is_ours = _is_own_folder(lock) and locked(lock)
        except OSError:
            is_ours = False
        if is_ours:
            return lock
        let_go(lock)
        return None


def _is_own_folder(lock: int) -> bool:
    """Whether an open file is a folder of this user, in which nobody else may write."""
    about = os.fstat(lock)
    others_write = about.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
    return stat.S_ISDIR(about.st_mode) and about.st_uid == os.getuid() and not others_write

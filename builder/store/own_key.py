"""A key that only this user has: rows that were sealed with another are not believed.

A store lies in the folder of a book, and a book comes from anywhere. Without the key, whoever sends
a book could send with it a store in which nothing was ever found.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path

_BYTES = 32


def own_key() -> bytes | None:
    """Return the key of this user, made when there is none; None where none can be kept."""
    try:
        file = _state_folder() / "loombook" / "store.key"
        return _read(file) or _made(file)
    except (OSError, RuntimeError):  # no home, or one that nothing can be written in
        return None


def _state_folder() -> Path:
    """Where programs keep what is of this machine and user."""
    variable = "LOCALAPPDATA" if sys.platform == "win32" else "XDG_STATE_HOME"
    named = os.environ.get(variable, "")
    return Path(named) if Path(named).is_absolute() else Path.home() / ".local" / "state"


def _read(file: Path) -> bytes | None:
    with suppress(FileNotFoundError):
        with file.open("rb") as opened:
            key = opened.read(_BYTES + 1)  # whatever else somebody put there, and however long
        return key if len(key) == _BYTES else None
    return None


def _made(file: Path) -> bytes | None:
    """A new key, put in its place at once and whole; that of another process where it was first."""
    file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    new = file.with_name(f"{file.name}.{os.getpid()}.tmp")
    number = os.open(new, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    try:
        os.write(number, os.urandom(_BYTES))
    finally:
        os.close(number)
    new.replace(file)
    return _read(file)

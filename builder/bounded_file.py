"""The one door through which the bytes of a file that somebody gave us come in.

Records, settings, tables, sheets and answers all pass here. Size and kind are asked of the open
file, so that nothing is read of a file that is too large, and nothing waits for a pipe.
"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

# Opening a pipe without these waits for its other end; no system has all of them.
_HOW = (
    os.O_RDONLY
    | getattr(os, "O_NONBLOCK", 0)
    | getattr(os, "O_NOCTTY", 0)
    | getattr(os, "O_CLOEXEC", 0)
    | getattr(os, "O_BINARY", 0)
)


class FileTooLargeError(OSError):
    """A file of more bytes than what is asked of it can have; nothing of it was kept."""

    def __init__(self, most_bytes: int) -> None:
        super().__init__(errno.EFBIG, f"it is larger than {most_bytes} bytes")
        self.most_bytes = most_bytes


def read_bounded(path: Path, most_bytes: int) -> bytes:
    """Return the bytes of a plain file of at most `most_bytes`.

    Links are followed. Time and memory are bounded by `most_bytes`, whatever the file is.

    Raises:
        FileTooLargeError: it is larger, or grew beyond that while it was read.
        OSError: it is a folder, a pipe or a device, or it cannot be read.
        ValueError: the name holds a NUL.
    """
    _refuse_odd(path.stat())  # asked first, because opening some devices does something
    number = os.open(path, _HOW)
    try:
        about = os.fstat(number)
        _refuse_odd(about)
        if about.st_size > most_bytes:
            raise FileTooLargeError(most_bytes)
        return _read(number, most_bytes)
    finally:
        os.close(number)


def _refuse_odd(about: os.stat_result) -> None:
    if not stat.S_ISREG(about.st_mode):
        raise OSError(errno.EINVAL, "it is no plain file")


def _read(number: int, most_bytes: int) -> bytes:
    """Everything up to one byte beyond the limit: a file may grow, or not tell its size."""
    pieces, left = [], most_bytes + 1
    while left and (piece := os.read(number, min(left, 1 << 20))):
        pieces.append(piece)
        left -= len(piece)
    if not left:
        raise FileTooLargeError(most_bytes)
    return b"".join(pieces)

"""How often files are read, counted by the interpreter itself, here and in forked workers."""

from __future__ import annotations

import os
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_logs: list[int] = []  # where paths are written while somebody counts; a forked worker has it too


def _hear(event: str, arguments: tuple[object, ...]) -> None:
    if event != "open" or not _logs:
        return
    path, _, flags = arguments
    writing = isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR)
    if isinstance(path, (str, bytes, os.PathLike)) and not writing:
        os.write(_logs[-1], os.fsencode(path) + b"\n")


sys.addaudithook(_hear)  # stays for good, and hears only while somebody counts


@contextmanager
def opened_under(folder: Path) -> Iterator[Counter[Path]]:
    """Yield a counter that holds, after the block, how often each file under `folder` was read."""
    found: Counter[Path] = Counter()
    place = folder.resolve()
    with tempfile.TemporaryFile() as log:
        _logs.append(log.fileno())
        try:
            yield found
        finally:
            _logs.pop()
        log.seek(0)
        paths = (Path(os.path.realpath(os.fsdecode(line))) for line in log.read().splitlines())
        found.update(path for path in paths if path.is_relative_to(place) and path.is_file())

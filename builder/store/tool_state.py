"""The state of the tool itself: what was worked out counts while that is the same."""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from builder import LOADED_NS, __version__
from builder import __file__ as _package
from builder.data_files import schema_folder

_OTHERS = ("yaml", "jsonschema_rs")
"""Modules of others that have a say in what a check finds."""
_CODE = (".py", ".json")
_MARGIN_NS = 1_000_000_000
"""Longer than the steps in which a disk tells time."""


@cache
def tool_state() -> str:
    """Return what differs whenever code, schemas, interpreter or a library of this tool does.

    Of each file name, size and both times are looked at, and not its bytes: whatever writes to a
    file moves `ctime`, which nobody can set. A file that is only touched makes work, and no harm.
    Where one was saved just before or since this process loads them, nobody knows which text
    works here: then the state is like no other.
    """
    told = hashlib.sha256(f"{__version__} {sys.version}".encode())
    newest = 0
    for name in sorted(_files()):
        about = os.stat(name)  # noqa: PTH116 - asked of a thousand
        newest = max(newest, about.st_ctime_ns)
        line = f"{name} {about.st_size} {about.st_mtime_ns} {about.st_ctime_ns}\n"
        told.update(line.encode("utf-8", "surrogateescape"))
    if newest > LOADED_NS - _MARGIN_NS:
        told.update(os.urandom(16))
    return told.hexdigest()


def _files() -> Iterator[str]:
    for name in _OTHERS:
        spec = find_spec(name)
        if spec is not None and spec.origin:
            yield spec.origin
    for folder in (Path(_package).parent, schema_folder()):
        yield from _below(str(folder))


def _below(folder: str) -> Iterator[str]:
    with os.scandir(folder) as found:
        for entry in found:
            if entry.is_dir():
                yield from _below(entry.path)
            elif entry.name.endswith(_CODE) and entry.is_file():  # no dead link of an editor
                yield entry.path

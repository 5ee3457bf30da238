"""The state of the tool itself: what was worked out counts while that is the same."""

from __future__ import annotations

import hashlib
import os
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from builder import LOADED_NS, __version__
from builder import __file__ as _package
from builder.data_files import licence_file, schema_folder, templates_folder

_OTHERS = ("yaml", "jsonschema_rs")
"""Modules of others that have a say in what a check finds."""
_OF_PAGES = ("jinja2", "markupsafe", "mkdocs", "material", "markdown", "segno")
"""Modules of others that have a say in what a page looks like."""
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
    folders = (Path(_package).parent, schema_folder())
    code = (name for folder in folders for name in _below(str(folder)) if name.endswith(_CODE))
    return _state_of([*_modules(_OTHERS), *code])


@cache
def site_state() -> str:
    """Return what differs whenever that or anything else does that pages are made with."""
    given = [*_below(str(templates_folder())), str(licence_file())]
    return tool_state() + _state_of([*_modules(_OF_PAGES), *given])


def _state_of(files: Iterable[str]) -> str:
    told = hashlib.sha256(f"{__version__} {sys.version}".encode())
    newest = 0
    for name in sorted(files):
        about = os.stat(name)  # noqa: PTH116 - asked of a thousand
        newest = max(newest, about.st_ctime_ns)
        line = f"{name} {about.st_size} {about.st_mtime_ns} {about.st_ctime_ns}\n"
        told.update(line.encode("utf-8", "surrogateescape"))
    if newest > LOADED_NS - _MARGIN_NS:
        told.update(os.urandom(16))
    return told.hexdigest()


def _modules(names: Iterable[str]) -> Iterator[str]:
    for name in names:
        spec = find_spec(name)
        if spec is not None and spec.origin:
            yield spec.origin


def _below(folder: str) -> Iterator[str]:
    with os.scandir(folder) as found:
        for entry in found:
            if entry.is_dir():
                if entry.name == "__pycache__":
                    continue  # made of what is looked at
                yield from _below(entry.path)
            elif entry.is_file():  # no dead link of an editor
                yield entry.path

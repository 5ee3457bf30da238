"""Record files that are another file too: links out of the book, and second names of private ones.

What a link leads to is not read: a record of a folder that others may write to could name any file
of this machine, and a finding that quotes it would print it.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from builder.book.record_files import RecordFile, Root
from builder.loading import Refusal, file_refusals

_Same = tuple[int, int]
"""What tells whether two names are one file: device and number."""


def refused_links(
    files: Sequence[RecordFile], roots: Sequence[Root], public: bool
) -> dict[Path, Refusal]:
    """Return the files that may not be read because of what they are linked to, and why.

    A link may lead anywhere under the roots of its book, of a public one under those that are
    shared. With `public` nothing in a private root is read; only when a shared file has a second
    name is it asked whether that name stands there.
    """
    read = [root for root in roots if not (public and root.visibility == "private")]
    homes = [os.path.realpath(root.folder) for root in read]
    refused = {
        file.path: file_refusals.links_outside()
        for file in files
        if not _is_within(os.path.realpath(file.path), homes)
    }
    return refused | _private_by_another_name(files, roots)


def _private_by_another_name(
    files: Sequence[RecordFile], roots: Sequence[Root]
) -> dict[Path, Refusal]:
    private = [root.folder for root in roots if root.visibility == "private"]
    if not private:
        return {}
    doubled = {file.path: _same(file.path, 2) for file in files if not file.is_private}
    doubled = {path: same for path, same in doubled.items() if same}
    names = {_same(path, 2) for path in _all_in(private)} if doubled else set()
    return {path: file_refusals.private_too() for path, same in doubled.items() if same in names}


def _all_in(folders: Iterable[Path]) -> Iterable[Path]:
    return (path for folder in folders for path in folder.rglob("*"))


def _same(path: Path, least_names: int) -> _Same | None:
    """What a file is, None for one of fewer names or that is not there."""
    try:
        about = path.stat()
    except (OSError, ValueError):
        return None
    return (about.st_dev, about.st_ino) if about.st_nlink >= least_names else None


def _is_within(place: str, homes: Iterable[str]) -> bool:
    return any(place.startswith(home.rstrip(os.sep) + os.sep) for home in homes)

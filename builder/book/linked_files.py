"""What is another file or folder too: links out of the book, second names of private records, and
linked folders, which nobody looks into; and folders that this user may not look into.

What a link leads to is not read: a record of a folder that others may write to could name any file
of this machine, and a finding that quotes it would print it.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from pathlib import Path

from builder.book.record_files import FOLDERS, RecordFile, Root, is_record_name, shown_path
from builder.findings import CatalogueEntry, Finding, Severity
from builder.loading import Refusal, file_refusals

LINKED_FOLDER = CatalogueEntry(
    id="BOK112",
    slug="linked-folder",
    title="A linked folder of records that are not read",
    severity=Severity.WARN,
    what="A symbolic link to a folder with records in it, below one of the folders of records. "
    "Links to single files are followed, and so is a linked `vehicles`, as long as they stay in "
    "the book; a link to a folder further in could lead round in a circle.",
    why="Its records look as if they were in the book, and nobody finds them there.",
    example="`vehicles/ostrel` is a link to `../../other-book/vehicles/ostrel`.",
    fix="Copy or move the folder here, or name the folder that its `vehicles` stands in under "
    "`roots` in book.yaml.",
)

UNREAD_FOLDER = CatalogueEntry(
    id="BOK131",
    slug="unread-folder",
    title="A folder of records that cannot be looked into",
    severity=Severity.STOP,
    what="A folder of a book, or one below its folders of records, whose names the system does not "
    "tell this user.",
    why="Nobody knows which records are in it. A site without them looks whole, and what they say "
    "against a plan is not heard.",
    example="`vehicles/ostrel` is another user's, and closed to all others.",
    fix="Let whoever checks and builds the book read the folder and what is in it; on Linux: "
    "chmod -R u+rX, as the user whose folder it is. If it is not of this book, move it out.",
)

_Same = tuple[int, int]
"""What tells whether two names are one file: device and number."""


_NO_FOLDER = (FileNotFoundError, NotADirectoryError)
"""A book need not have a folder for every kind of record."""
_MOST_NAMES = 1000
"""So many names behind a link are asked whether they are records: it may lead to a whole disk."""


def folders_in_doubt(roots: Sequence[Root], public: bool) -> Iterator[Finding]:
    """Yield a finding for each linked folder whose records are read nowhere else, and for each
    folder that cannot be looked into.

    With `public` nothing in a private root is looked at.
    """
    unread: list[OSError] = []
    read = [root.folder for root in roots if not (public and root.visibility == "private")]
    places = [folder / name for folder in read for name in FOLDERS]
    homes = [os.path.realpath(place) for place in places]
    folders = [
        os.path.join(at, name)  # noqa: PTH118 - there are as many as makers, and links are few
        for place in places
        for at, names, _ in os.walk(place, onerror=unread.append)
        for name in names
    ]
    for path in sorted(Path(folder) for folder in folders if os.path.islink(folder)):  # noqa: PTH114
        within = _is_within(os.path.realpath(path) + os.sep, homes)
        if not within and _holds_records(path):
            yield _not_read(path)
    yield from map(_not_told, (e for e in unread if not isinstance(e, _NO_FOLDER)))


def _holds_records(folder: Path) -> bool:
    return any(map(is_record_name, islice(folder.rglob("*"), _MOST_NAMES)))


def _not_read(path: Path) -> Finding:
    entry = LINKED_FOLDER
    said = ("the folder is a link, and the records in it are not read", entry.fix, ())
    return Finding(shown_path(path), 1, 1, entry.severity, entry.id, entry.slug, *said)


def _not_told(error: OSError) -> Finding:
    entry, path = UNREAD_FOLDER, Path(os.fsdecode(error.filename))
    said = (f"the folder cannot be looked into: {error.strerror}", entry.fix, ())
    return Finding(shown_path(path), 1, 1, entry.severity, entry.id, entry.slug, *said)


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
    tops = {
        f"{root.folder / name}{os.sep}": root.folder / name for root in read for name in FOLDERS
    }
    inside = {top: _is_within(os.path.realpath(tops[top]), homes) for top in tops}
    anywhere = not all(inside.values())
    refused = {
        file.path: file_refusals.links_outside()
        for file in files
        if (anywhere and not inside[_top_of(file.path, tops)])
        or (os.path.islink(file.path) and not _is_within(os.path.realpath(file.path), homes))  # noqa: PTH114 - asked of each of ten thousand
    }
    return refused | _private_by_another_name(files, roots)


def _top_of(path: Path, tops: Iterable[str]) -> str:
    """The folder of records that a file was found in: below it no link was followed."""
    name = str(path)
    return max((top for top in tops if name.startswith(top)), key=len)


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

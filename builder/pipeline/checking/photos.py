"""The files of photos: what lies beside a record under their names, looked at when it is asked for.

Nothing is read of a file that a book would not keep, of a link, or of what is no plain file.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from builder.book import Book, RecordFile
from builder.editing.photo_facts import judged
from builder.loading import FileTooLargeError, read_bounded
from builder.model.book import Shelf
from builder.model.photo_file import MOST_KEPT_BYTES, PhotoFile
from builder.model.vehicle import Vehicle


class PhotosOfBook(Mapping[tuple[str, str], PhotoFile]):
    """The photo of each folder, as it is reached from `home`, and name; one that is not there
    says so."""

    def __init__(self, home: str, private: Sequence[Path] = ()) -> None:
        self._home, self._private = home, private
        self._known: dict[tuple[str, str], PhotoFile] = {}

    def __getitem__(self, place: tuple[str, str]) -> PhotoFile:
        if place not in self._known:
            folder, name = place
            beside = Path(os.path.normpath(Path(self._home, folder)), name)
            self._known[place] = taken_photo(beside, self._private)[0]
        return self._known[place]

    def __iter__(self) -> Iterator[tuple[str, str]]:
        return iter(self._known)

    def __len__(self) -> int:
        return len(self._known)


def private_folders(book: Book) -> list[Path]:
    """The private roots of a book, those that a public one leaves out too."""
    return [root.folder for root in book.roots if root.visibility == "private"]


def taken_photo(path: Path, private: Sequence[Path] = ()) -> tuple[PhotoFile, bytes]:
    """Look at a photo's file once: what it is, and its bytes. Never raises for what is there.

    In a book with `private` folders a photo outside them may have no second name, which could be
    one of theirs.
    """
    try:
        if path.is_symlink() or _may_be_private(path, private):
            return PhotoFile(("linked",)), b""
        content = read_bounded(path, MOST_KEPT_BYTES)
    except FileNotFoundError:
        return PhotoFile(("missing",)), b""
    except FileTooLargeError:
        return PhotoFile(("bytes",), size_bytes=MOST_KEPT_BYTES + 1), b""
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        return PhotoFile(("unread",), why), b""
    return judged(content), content


def _may_be_private(path: Path, private: Sequence[Path]) -> bool:
    if not private or any(path.is_relative_to(folder) for folder in private):
        return False
    return path.stat().st_nlink > 1


def with_photos(vehicle: Vehicle, shelf: Shelf, file: RecordFile) -> Vehicle:
    """Return a vehicle with what lies beside its record under the names of its photos."""
    if not vehicle.photos:
        return vehicle
    folder = os.path.relpath(file.path.parent, shelf.photo_home or os.curdir)
    found = {photo.file: shelf.photos.get((folder, photo.file)) for photo in vehicle.photos}
    return replace(vehicle, photo_files={name: one for name, one in found.items() if one})

"""Photos named in an interview: bare copies beside the drafts, then beside the record."""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from builder.book import Book, shown_path
from builder.editing.drafts.vehicle_lines import photo_line
from builder.editing.interview.log import PHOTO
from builder.editing.photo_bytes import NoPictureError, bare_photo
from builder.loading import FileTooLargeError, read_bounded
from builder.model.photo_file import MOST_KEPT_BYTES, MOST_SHOWN_PX
from builder.pipeline.changing.creating import NewRecord
from builder.pipeline.changing.evidence_files import PhotoRefusedError
from builder.pipeline.changing.kept_drafts import KeptDraft, drafts_folder, kept_drafts
from builder.pipeline.changing.record_files import create_new

_LONGEST_STEM = 80
_MOST_READ_BYTES = 60_000_000
"""A camera writes more than a book keeps: a film, or a second picture behind the first."""


class BarePhoto(NamedTuple):
    """A photo without its metadata, and a name that a record can have for it."""

    name: str
    content: bytes


def bare_photo_of(path: Path) -> BarePhoto:
    """Return a photo's file without place, time and device.

    Raises:
        FileNotFoundError: it is not there.
        PhotoRefusedError: it is too large, or no picture whose metadata can be taken out.
        OSError: it cannot be read.
    """
    try:
        content, ending = bare_photo(read_bounded(path, _MOST_READ_BYTES))
    except FileTooLargeError as error:
        raise _too_large(path, f"more than {_MOST_READ_BYTES // 1_000_000} MB") from error
    except NoPictureError as error:
        raise PhotoRefusedError(
            f"{path.name}: {error}; save it as a JPEG, since place and time have to be taken out"
        ) from error
    if len(content) > MOST_KEPT_BYTES:
        raise _too_large(path, f"{len(content) / 1_000_000:.1f} MB")
    stem = re.sub(r"[^A-Za-z0-9_-]+", "-", path.stem).strip("-_")[:_LONGEST_STEM] or "photo"
    return BarePhoto(f"{stem}{ending}", content)


def _too_large(path: Path, has: str) -> PhotoRefusedError:
    return PhotoRefusedError(
        f"{path.name} has {has}, and a book keeps photos up to {MOST_KEPT_BYTES // 1_000_000} MB: "
        f"save it with fewer pixels, {MOST_SHOWN_PX} on the longer side, then name it again; the "
        'page "Take down a car" does that by itself'
    )


def keep_photo(book: Book, photo: BarePhoto) -> str:
    """Lay a photo beside the drafts and return its name, which no other photo of the book has.

    Raises:
        OSError: it cannot be written.
    """
    folder, vehicles = _folder(book), book.own_roots[0].folder / "vehicles"
    name, number = photo.name, 1
    while not _is_same(folder / name, photo.content):
        if not (folder / name).exists() and not any(vehicles.rglob(name)):
            create_new(folder / name, photo.content)
            break
        number += 1
        name = f"{Path(photo.name).stem}-{number}{Path(photo.name).suffix}"
    return name


def place_photos(book: Book, record: NewRecord) -> list[str]:
    """Lay the photos that a record names beside it; return why one stays where it is.

    Raises:
        OSError: one cannot be written.
    """
    stay = list[str]()
    for name in (photo["file"] for photo in record.data.get("photos", ())):
        source, target = _folder(book) / name, record.path.parent / name
        if not source.is_file():
            continue
        content = read_bounded(source, MOST_KEPT_BYTES)
        if _is_same(target, content):
            continue
        try:
            create_new(target, content)
        except FileExistsError:
            stay.append(f"another {name} lies beside the record; yours is {shown_path(source)}")
    return stay


def clear_photos(book: Book, done: KeptDraft, stay: Sequence[str] = ()) -> None:
    """Remove the copies that no other draft names, once the record of a draft is written."""
    if stay:
        return
    others = [draft for draft in kept_drafts(book, "vehicle") if draft.path != done.path]
    named = {photo_line(text)["file"] for draft in others for text in draft.log.lines(PHOTO)}
    for path in _folder(book).glob("*"):
        if path.name not in named:
            with suppress(OSError):
                path.unlink()
    with suppress(OSError):
        _folder(book).rmdir()  # only when it is empty


def _folder(book: Book) -> Path:
    return drafts_folder(book) / "photos"


def _is_same(path: Path, content: bytes) -> bool:
    try:
        return read_bounded(path, len(content)) == content
    except OSError:
        return False

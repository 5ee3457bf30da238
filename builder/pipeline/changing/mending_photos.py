"""What `mend` takes out of photos: all that tells more than the picture; the picture stays."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.book import Book, RecordFile, shown_path
from builder.editing.photo_bytes import bare_photo
from builder.model.vehicle import Vehicle
from builder.pipeline.changing.record_files import replace_texts
from builder.pipeline.checking.photos import private_folders, taken_photo
from builder.pipeline.checking.records import read_record


@dataclass(frozen=True, slots=True)
class BaredPhoto:
    """A photo of a record: its bytes before and after, and what is taken out."""

    path: Path
    old: bytes
    new: bytes
    told: tuple[str, ...]

    @property
    def words(self) -> str:
        """What is done, as a line."""
        return f"{shown_path(self.path)}: carries {', '.join(self.told)}"


def photos_to_bare(book: Book, files: Iterable[RecordFile]) -> list[BaredPhoto]:
    """Return the photos of these records that carry metadata; nothing is written."""
    found = dict[Path, BaredPhoto]()
    private = private_folders(book)
    for file in files:
        record = read_record(file).record
        for photo in record.photos if isinstance(record, Vehicle) else ():
            path = file.path.with_name(photo.file)
            about, content = taken_photo(path, private)
            if "metadata" in about.faults:
                found[path] = BaredPhoto(path, content, bare_photo(content)[0], about.told)
    return list(found.values())


def write_bared(photos: Sequence[BaredPhoto]) -> None:
    """Write each photo in the place of the one that told more, all of them or none.

    Raises:
        ChangedMeanwhileError: somebody changed one meanwhile; none was written.
        OSError: one cannot be written; those before it were put back.
    """
    replace_texts([(photo.path, photo.old, photo.new) for photo in photos])

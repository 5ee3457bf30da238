"""The drafts of interviews: one small file for each, written anew after each answer."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from builder.book import Book
from builder.editing.interview.log import Log, log_of, log_text
from builder.loading import LARGEST_FILE_BYTES, FileTooLargeError, read_bounded
from builder.model.words import RecordKind
from builder.pipeline.changing.record_files import (
    ChangedMeanwhileError,
    create_new,
    replace_text,
)

FOLDER = ".drafts"
"""Beside the folders of records, of which it is none."""


@dataclass(slots=True)
class KeptDraft:
    """A draft and its file; `text` is what the file holds, None while there is no file."""

    kind: RecordKind
    path: Path
    log: Log
    text: str | None = None

    def keep(self) -> None:
        """Bring the answers so far to the disk.

        Raises:
            OSError: they cannot be written; what was kept before is still there.
        """
        text = log_text(self.kind, self.log)
        if text == self.text:
            return
        try:
            if self.text is None:
                create_new(self.path, text)
            else:
                replace_text(self.path, self.text, text)
        except (ChangedMeanwhileError, FileExistsError, FileNotFoundError):
            # Another interview has this file: both are kept.
            self.path = _free_place(self.path.parent, self.kind)
            create_new(self.path, text)
        self.text = text

    def drop(self) -> None:
        """Remove the file once the record is written."""
        if self.text is not None:
            with suppress(OSError):
                self.path.unlink()
            with suppress(OSError):
                self.path.parent.rmdir()  # only when it is empty


def new_draft(book: Book, kind: RecordKind) -> KeptDraft:
    """Return a draft that has no file yet."""
    return KeptDraft(kind, _free_place(drafts_folder(book), kind), Log())


def kept_drafts(book: Book, kind: RecordKind) -> list[KeptDraft]:
    """Return the drafts of a kind that are kept, the one worked on last first."""
    files = [path for path in drafts_folder(book).glob(f"{kind}-*.txt") if path.is_file()]
    files.sort(key=lambda path: path.stat().st_mtime, reverse=True)
    found = (_read(path, kind) for path in files)
    return [draft for draft in found if draft is not None]


def _read(path: Path, kind: RecordKind) -> KeptDraft | None:
    try:
        text = read_bounded(path, LARGEST_FILE_BYTES).decode("utf-8")
    except (OSError, UnicodeDecodeError, FileTooLargeError):
        return None
    return KeptDraft(kind, path, log_of(text.splitlines()), text)


def drafts_folder(book: Book) -> Path:
    """The folder of the drafts, whether it is there or not."""
    return book.own_roots[0].folder / FOLDER


def _free_place(folder: Path, kind: RecordKind) -> Path:
    number = 1
    while (path := folder / f"{kind}-{number}.txt").exists():
        number += 1
    return path

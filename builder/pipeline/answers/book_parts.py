"""The parts of a book, as the finder asks for them."""

from __future__ import annotations

from typing import Any

from builder.book import Book
from builder.finder.parts import Part
from builder.model.kinds import PART_KINDS
from builder.model.words import RecordKind
from builder.pipeline.checking.records import read_record


def book_parts(book: Book) -> list[Part]:
    """Return the parts of a book as the finder knows them."""
    return [Part(kind, one.id, one.name) for kind, one in part_records(book)]


def part_records(book: Book) -> list[tuple[RecordKind, Any]]:
    """Return each part of a book with its kind, in the order that pages list them."""
    files = [file for file in book.files() if not file.is_template]
    read = [(f.kind, read_record(f).record) for f in files if f.kind in PART_KINDS]
    found = [(kind, record) for kind, record in read if record is not None]
    return sorted(found, key=lambda one: (PART_KINDS.index(one[0]), one[1].name))

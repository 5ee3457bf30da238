"""Every usable vehicle of a book, its visits turned to the faces of its plugs."""

from __future__ import annotations

from collections.abc import Iterator

from builder.book import Book
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.records import ReadRecord, read_record, with_faces
from builder.pipeline.checking.shelf import housings_of


def vehicles(book: Book) -> Iterator[tuple[ReadRecord, Vehicle]]:
    """Yield every usable vehicle of the book; templates are not of the book."""
    shells = housings_of(book)
    for file in book.files():
        if file.kind == "vehicle" and not file.is_template:
            read = with_faces(read_record(file), shells)
            if isinstance(read.record, Vehicle):
                yield read, read.record

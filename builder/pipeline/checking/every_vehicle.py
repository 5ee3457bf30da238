"""Every usable vehicle of a book, as the book counts it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.book import Book
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.shelf import counting_shelf


def vehicles(book: Book) -> Iterator[tuple[ReadRecord, Vehicle]]:
    """Yield every usable vehicle of the book; templates are not of the book."""
    shelf = counting_shelf(book)
    for file in book.files():
        if file.kind == "vehicle" and not file.is_template:
            read = as_counted(read_record(file), shelf)
            if isinstance(read.record, Vehicle):
                yield read, read.record

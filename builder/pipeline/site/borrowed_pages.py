"""Which pages of a site show a record that a borrowed book keeps."""

from __future__ import annotations

from builder.book import FOLDER_OF, Book
from builder.rendering.page import Borrowed


def borrowed_urls(book: Book) -> dict[str, Borrowed]:
    """Return from where the records of these pages come, by their URL."""
    told = {
        each.book.name: Borrowed(each.words, each.data_licence or _UNSAID) for each in book.borrowed
    }
    return {
        f"{FOLDER_OF[file.kind]}/{file.path.stem}.html": told[file.lender]
        for file in book.files()
        if file.lender and not file.is_template
    }


_UNSAID = "not stated: ask whoever keeps that book"

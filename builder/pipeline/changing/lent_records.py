"""What to do with evidence on a record that a shared book keeps: the words for it."""

from __future__ import annotations

from pathlib import Path

from builder.book import Book, RecordFile, shown_path
from builder.findings import Fault


def of_shared_book(book: Book, file: RecordFile, lender: Path) -> Fault:
    """Return the fault of a sheet that would change a record of the shared book at `lender`."""
    there, name = shown_path(lender), file.path.stem
    return Fault(
        (file.kind,),
        f"{name} belongs to the shared book at {there}; nothing was written",
        f"send the sheet to those who keep that book, or run it there: --book {there}; or keep it "
        f"in the shop: copy {file.shown} to {_own_place(book, file)}, add the line replaces: "
        f"{{id: {name}, reason: our own readings}} to the copy, and add the sheet again",
    )


def _own_place(book: Book, file: RecordFile) -> str:
    """Where a private copy of a shared record goes."""
    private = [root for root in book.own_roots if root.visibility == "private"]
    holding = [root.folder for root in book.roots if file.path.is_relative_to(root.folder)]
    inner = max(holding, key=lambda folder: len(folder.parts))
    name = file.path.relative_to(inner)
    if not private:
        return f"a private folder under roots in the settings, as {name.as_posix()},"
    return shown_path(private[0].folder / name)

"""`new table`: the table to fill, or a record of the book as a filled one."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from builder.book import Book, shown_path
from builder.editing.tabular import TableRows, csv_rows, rows_of, xlsx_sheets
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing.record_files import create_new
from builder.pipeline.checking.records import read_record
from builder.speller import nearest
from builder.spreadsheets import CSV, XLSX, write_csv, write_xlsx


class NotATableNameError(ValueError):
    """A file name that ends neither in .xlsx nor in .csv."""


def table_content(name: str, filled: TableRows | None = None) -> bytes:
    """The bytes of a table by the end of its name, empty or filled.

    Raises:
        NotATableNameError: the name ends otherwise.
    """
    end = name.rpartition(".")[2].lower()
    if end == XLSX:
        return write_xlsx(xlsx_sheets(filled))
    if end == CSV:
        return write_csv(csv_rows(filled))
    raise NotATableNameError(f"{name} should end in .xlsx or .csv")


def rows_of_vehicle(book: Book, vehicle: str) -> TableRows:
    """The rows of a vehicle of the book.

    Raises:
        NoSuchRecordError: the book has none of that id, or it cannot be read.
    """
    files = {f.path.stem: f for f in book.files() if f.kind == "vehicle" and not f.is_template}
    if vehicle not in files:
        near = nearest(vehicle, files)
        hint = f"; did you mean {near}?" if near else ""
        raise NoSuchRecordError(f"there is no vehicle {vehicle} in {shown_path(book.folder)}{hint}")
    read = read_record(files[vehicle])  # its visits stay in their files: a table is of one record
    if read.record is None:
        raise NoSuchRecordError(f"{read.file.shown} has findings; run: loombook check")
    data: dict[str, Any] = read.data
    return rows_of(data)


def write_table(path: Path, filled: TableRows | None = None) -> None:
    """Write a table; nothing is ever overwritten.

    Raises:
        NotATableNameError: the name ends in neither .xlsx nor .csv.
        FileExistsError: there is a file of that name.
        OSError: it cannot be written; nothing is left of it.
    """
    create_new(path, table_content(path.name, filled))

"""One door for both kinds of file, by the end of the name."""

from __future__ import annotations

from typing import Final

from builder.spreadsheets.cells import Sheet
from builder.spreadsheets.csv_files import read_csv
from builder.spreadsheets.limits import MOST_BYTES, RefusedFileError, too_large

XLSX: Final = "xlsx"
CSV: Final = "csv"
"""Ends of file names that are read and written; text tables are read under two more."""
_TEXT_ENDS = (CSV, "tsv", "txt")
_OTHER = {
    "xlsm": "holds macros",
    "xlsb": "is a binary workbook",
    "xls": "is a workbook of the old binary kind",
    "ods": "is an OpenDocument table",
    "numbers": "is a table of another program",
}


def read_tables(content: bytes, name: str) -> list[Sheet]:
    """Return the sheets of a file whose name ends in .xlsx, .csv, .tsv or .txt.

    Raises:
        RefusedFileError: it is of another kind, damaged, or not safe to read.
    """
    if len(content) > MOST_BYTES:
        raise too_large()
    end = name.rpartition(".")[2].lower()
    if end == XLSX:
        # Here, not above: a command that opens no workbook need not load the library for it.
        from builder.spreadsheets.xlsx_reading import read_xlsx

        return read_xlsx(content)
    if end in _TEXT_ENDS:
        return [read_csv(content)]
    what = _OTHER.get(end, "is no table that can be read")
    raise RefusedFileError(what, "open it in its program and save it as .xlsx or .csv")

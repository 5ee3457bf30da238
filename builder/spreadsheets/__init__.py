"""Tables with cell addresses: reading and writing csv and xlsx, with no idea of records.

    read_tables(content, name)     the sheets of a file, by the end of its name
    write_csv(rows)                bytes of a csv file
    write_xlsx(sheets)             bytes of a workbook with drop-downs and formats

A cell is text and the kind of thing it was; a number is its plain decimal text, a day is
YYYY-MM-DD. What cannot be trusted (a macro, a declared entity, a file that unpacks to far more
than any record holds) is refused before it is read: `RefusedFileError` with what to do instead.
"""

from builder.spreadsheets.cells import Cell, Kind, Sheet, address
from builder.spreadsheets.csv_files import read_csv, write_csv
from builder.spreadsheets.limits import MOST_BYTES, RefusedFileError, too_large
from builder.spreadsheets.new_sheets import Laid, NewSheet, write_xlsx
from builder.spreadsheets.opening import CSV, XLSX, read_tables

__all__ = [
    "CSV",
    "MOST_BYTES",
    "XLSX",
    "Cell",
    "Kind",
    "Laid",
    "NewSheet",
    "RefusedFileError",
    "Sheet",
    "address",
    "read_csv",
    "read_tables",
    "too_large",
    "write_csv",
    "write_xlsx",
]

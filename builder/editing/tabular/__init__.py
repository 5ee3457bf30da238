"""A car as rows of a table, in both directions: pure values in, plain record data out.

    from_tables(sheets)      the record a filled table stands for, where each value came from,
                             and what is wrong with the table
    rows_of(record)          the table's rows of a record, and the keys that no table holds
    template_sheets()        the empty table with headings, words to choose from and help
    columns_markdown()       what each heading means, as the handbook prints it

A table has two parts: what is true of the car, one `field | value` a row (sheet "car", or the
rows of a csv file that begin with #), and one row a pin (sheet "pins").
"""

from builder.editing.tabular.car_fields import NOT_HELD
from builder.editing.tabular.describing import columns_markdown
from builder.editing.tabular.faults import CATALOGUE, CellFault, Place
from builder.editing.tabular.reading import Imported, from_tables
from builder.editing.tabular.template import csv_rows, template_sheets, xlsx_sheets
from builder.editing.tabular.writing import TableRows, rows_of

__all__ = [
    "CATALOGUE",
    "NOT_HELD",
    "CellFault",
    "Imported",
    "Place",
    "TableRows",
    "columns_markdown",
    "csv_rows",
    "from_tables",
    "rows_of",
    "template_sheets",
    "xlsx_sheets",
]

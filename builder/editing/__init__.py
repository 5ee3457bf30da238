"""Changing the text of a record without touching what is not meant: pure text in, text out.

All functions take and return `str` as decoded from UTF-8: a byte order mark and CRLF line ends
may be in it and stay. Nothing here opens a file; `pipeline.record_files` reads and writes.
A *path* is a data path as in findings, e.g. ("plugs", 0, "pins", 3, "readings").
A text that cannot be read as a record, or a path that is not there, is an `UneditableError`
with a sentence for a person. Every function below leaves comments, order, quotes, line ends,
byte order mark and a missing final newline as they are, outside the place it changes.

    Edit(start, end, text)                      replace the characters [start:end] by text
    apply_edits(text, edits)                    all at once; OverlappingEditsError when two clash

    insert_item(text, path, item, kind=None)    add an item at the end of the list at `path`.
                                                A list that is missing, or `[]`, is made in house
                                                style; a one-line pin is opened to take it.
    insert_key(text, path, key, value, kind=None)
                                                add a key to the mapping at `path`: at its place
                                                in the order of the schema when `kind` is given,
                                                else at the end
    rename_key(text, path, new)                 spell the last key of `path` otherwise
    remove_item(text, path)                     take a list item or key away, with its lines

    write_record(data, kind, schema_ref=None)
                                                a new record in the house style. It reads back as
                                                the same data. `schema_ref` is the relative path
                                                of the schema file for editors; left out, that
                                                of the usual place of the kind.

`kind` is the name of a schema: "vehicle", "housing", "job" and so on. Values are plain data: dict,
list, str, int, float, bool, None. A value that no record can hold (infinity, a hidden
character) is an `UneditableError` too.
"""

from builder.editing.edits import Edit, OverlappingEditsError, UneditableError, apply_edits
from builder.editing.splicing import (
    insert_item,
    insert_key,
    remove_item,
    rename_key,
)
from builder.editing.writing import write_record

__all__ = [
    "Edit",
    "OverlappingEditsError",
    "UneditableError",
    "apply_edits",
    "insert_item",
    "insert_key",
    "remove_item",
    "rename_key",
    "write_record",
]

"""One declaration for each key of a record: type, unit, limits, words, and what people are told.

From it come the reader, the schema and all that names or asks for the key. `record` or `answer`
declare a class, `figure`, `word`, `text`, `part`, `listed` keys, `when`, `given`, `without` rules.
"""

from builder.declaring.conditions import given, when, without
from builder.declaring.reading import read
from builder.declaring.records import (
    Field,
    answer,
    fields_of,
    longest_line,
    record,
    rules_of,
    settles,
    shared_name,
)
from builder.declaring.schema import form_schema, schema_of
from builder.declaring.specs import Form, figure, listed, part, text, word

__all__ = [
    "Field", "Form", "answer", "fields_of", "figure", "form_schema", "given", "listed",
    "longest_line", "part", "read", "record", "rules_of", "schema_of", "settles", "shared_name",
    "text", "when", "without", "word",
]  # fmt: skip

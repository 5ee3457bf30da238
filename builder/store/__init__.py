"""What was worked out before, kept beside a book and never the truth.

A store answers by key, and a key is made of all that an answer rests on: so the worst that a lost,
damaged or foreign store can do is to have everything worked out anew.
"""

from builder.store.kept_rows import FOLDER, MOST_BYTES, NO_STORE, Store
from builder.store.opening import NO_STORE_VARIABLE, store_of
from builder.store.plain import NotPlainError, as_plain, reader_of
from builder.store.sums import sum_of
from builder.store.tool_state import site_state, tool_state

__all__ = [
    "FOLDER",
    "MOST_BYTES",
    "NO_STORE",
    "NO_STORE_VARIABLE",
    "NotPlainError",
    "Store",
    "as_plain",
    "reader_of",
    "site_state",
    "store_of",
    "sum_of",
    "tool_state",
]

"""Which store a book has, if any."""

from __future__ import annotations

import os
from pathlib import Path

from builder.store.kept_rows import NO_STORE, Store
from builder.store.own_key import own_key

NO_STORE_VARIABLE = "LOOMBOOK_NO_STORE"
"""An environment variable that, with anything in it, lets every command do without a store."""


def store_of(folder: Path) -> Store:
    """Return the store of the book in a folder; one that keeps nothing where none may be."""
    key = None if os.environ.get(NO_STORE_VARIABLE) else own_key()
    return NO_STORE if key is None else Store(folder, key)

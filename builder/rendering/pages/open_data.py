"""The page about open data: what there is, where it is, what every key and column means."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from builder.model.kinds import DECLARED
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.catalogue import key_views
from builder.rendering.pins_csv import COLUMNS
from builder.rendering.templates import fill
from builder.schema_check.schemas import SHARED

Schemas = Mapping[str, Mapping[str, Any]]
"""The JSON Schemas by name."""

_PACK: Final = "work-pack"
_FILE: Final = "data-file"
_DEFS = (SHARED, _PACK, _FILE)
_FILES = (
    (_FILE, "a record's data file"),
    ("data-index", "the index"),
    (_PACK, "a work pack, in the data file of a job"),
)


def open_data_page(schemas: Schemas, info: BuildInfo) -> Page:
    """Return the page; `schemas` holds the schemas of records and of the data files."""
    named = {"$defs": {k: v for name in _DEFS for k, v in schemas[name]["$defs"].items()}}
    keys = [(words, key_views(schemas[name], named)) for name, words in _FILES]
    body = fill(
        "open_data.html",
        info=info,
        columns=COLUMNS,
        kinds=tuple(DECLARED),
        schemas=tuple(schemas),
        keys=keys,
    )
    return Page(
        "data/index.html",
        "Open data",
        "Every record as JSON, every pin in one table, the schemas, and what each key means.",
        body,
    )

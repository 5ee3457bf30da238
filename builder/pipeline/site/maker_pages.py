"""The page on which a car is added without YAML, and the scripts made for it at build time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from builder.pipeline.checking.book_check import CheckedBook
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.record_maker import (
    DATA_URL,
    KINDS,
    VALIDATOR_URL,
    maker_data,
    maker_page,
)
from builder.rendering.script_data import script_json
from builder.rendering.validator_js import validator_script
from builder.rules.registry import RULES


def maker_pages(info: BuildInfo) -> list[Page]:
    """Return the page "Add a car"."""
    return [maker_page(RULES, info)]


def maker_scripts(checked: CheckedBook, schemas: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Yield the data of the page and its validator, as (relative path, content).

    `schemas` are the schemas of the kinds by name, and the shared definitions as "defs".
    """
    housings = sorted(checked.shelf.housings.values(), key=lambda each: each.id)
    data = script_json(maker_data(schemas, housings))
    yield DATA_URL, f"window.loombookMakerData={data};\n".encode()
    yield VALIDATOR_URL, validator_script(schemas, KINDS).encode()

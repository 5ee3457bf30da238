"""The page on which a car is added without YAML, and the scripts made for it at build time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from builder.book import FOLDERS, Book, home_of
from builder.data_files import near_schema_ref
from builder.model.words import RecordKind
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
    """Return the page "Take down a car"."""
    return [maker_page(RULES, info)]


def maker_scripts(checked: CheckedBook, schemas: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Yield the data of the page and its validator, as (relative path, content).

    `schemas` are the schemas of the kinds by name, and the shared definitions as "defs".
    """
    housings = sorted(checked.shelf.housings.values(), key=lambda each: each.id)
    data = script_json(maker_data(schemas, housings, schema_refs(checked.book)))
    yield DATA_URL, f"window.loombookMakerData={data};\n".encode()
    yield VALIDATOR_URL, validator_script(schemas, KINDS).encode()


def schema_refs(book: Book) -> dict[RecordKind, str]:
    """The schema of each kind from where a new record of this book goes, where one is near.

    Only what lies near is named: a page does not tell where the tool is installed.
    """
    shared = [root.folder for root in book.own_roots if root.visibility == "shared"]
    home = (shared or [book.folder])[0]
    folders = {kind: home / folder for folder, kind in FOLDERS.items()}
    folders["vehicle"] /= "make"
    places = {kind: folders[kind] / "new.yaml" for kind in KINDS}
    found = {k: near_schema_ref(place, k, home_of(place)) for k, place in places.items()}
    return {kind: ref for kind, ref in found.items() if ref is not None}

"""A small invented vehicle, a plan and a shelf for the page tests, built as records are."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from shipped_book import FOLDERS_OF_PARTS, FULL_RECORDS

from builder.loading import load_file
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.parsing import parse_record
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.plan import Plan
from builder.proof.pin_proof import prove
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.vehicle import vehicle_page

PINOUTS = Path(__file__).resolve().parents[3] / "pinouts"
INFO = BuildInfo("loombook", "0.1.0", "2024-05-13")
FREE_TEXT = {"str", "str | None", "tuple[str, ...]"}


def sample(folder: str) -> Any:
    """The record in a kind's commented example file, of a vehicle or job one with readings."""
    full = FULL_RECORDS / f"{folder.removesuffix('s')}.yaml"
    file = full if full.is_file() else PINOUTS / folder / "TEMPLATE.yaml"
    data = load_file(file, file.name).data
    assert data is not None
    return parse_record(folder.removesuffix("s"), data)


def sample_shelf() -> Shelf:
    """A shelf that holds one example of each part."""
    kinds = FOLDERS_OF_PARTS
    parts = {kind: {sample(kind).id: sample(kind)} for kind in kinds}
    return Shelf(**parts, vehicle_ids=frozenset({"template-vehicle"}))


def sample_plan(vehicle: Vehicle, shelf: Shelf) -> Plan:
    """The plan of a vehicle with the example converter."""
    converter = shelf.converters["template-converter"]
    return make_plan(vehicle, converter, defaults=shelf.defaults)


def page_of(vehicle: Vehicle, shelf: Shelf, **more: Any) -> Page:
    """The page of a vehicle with its proofs, without findings or plans unless given."""
    proofs = prove(vehicle, shelf.defaults)
    given = {"findings": [], "plans": []} | more
    return vehicle_page(vehicle, shelf, proofs, given["findings"], given["plans"], INFO)


def hostile(value: Any, payload: str, kept: frozenset[str] = frozenset()) -> Any:
    """The same record with `payload` in every field that holds free text, `kept` apart."""
    if isinstance(value, tuple):
        return tuple(hostile(item, payload, kept) for item in value)
    if not is_dataclass(value) or isinstance(value, type):
        return value
    changes: dict[str, Any] = {}
    for field in fields(value):
        inner = getattr(value, field.name)
        if field.name in kept:
            continue
        if field.type in FREE_TEXT:
            changes[field.name] = _replaced(inner, payload)
        else:
            changes[field.name] = hostile(inner, payload, kept)
    return replace(value, **changes)


def _replaced(inner: Any, payload: str) -> Any:
    if isinstance(inner, tuple):
        return tuple(payload for _ in inner)
    return payload if isinstance(inner, str) else inner


class Tags(HTMLParser):
    """Collects elements, attribute names and text of a piece of HTML."""

    def __init__(self, document: str) -> None:
        super().__init__()
        self.elements: set[str] = set()
        self.attributes: set[str] = set()
        self.values: list[tuple[str, str]] = []
        self.words: list[str] = []
        self.feed(document)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.add(tag)
        for name, value in attrs:
            self.attributes.add(name)
            self.values.append((name, value or ""))

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def text(self) -> str:
        """All text, with runs of white space as one space."""
        return " ".join("".join(self.words).split())

"""A small invented vehicle, a plan and a shelf for the page tests, built as records are."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.loading import load_file
from builder.model.book import Shelf
from builder.model.housing import Housing
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.parsing import parse_record
from builder.planning.tap_plan import make_plan
from builder.rendering.page import BuildInfo

PINOUTS = Path(__file__).resolve().parents[3] / "pinouts"
INFO = BuildInfo("loombook", "0.1.0", "2024-05-13")


def template_data(folder: str) -> dict[str, Any]:
    """The data of a kind's commented example record."""
    file = PINOUTS / folder / "TEMPLATE.yaml"
    data = load_file(file, file.name).data
    assert data is not None
    return data


def sample_vehicle(**changes: Any) -> Vehicle:
    """The template vehicle with top-level keys changed."""
    vehicle = parse_record("vehicle", template_data("vehicles") | changes)
    assert isinstance(vehicle, Vehicle)
    return vehicle


def sample_shelf() -> Shelf:
    """A shelf that holds the template housing and converter."""
    housing = parse_record("housing", template_data("housings"))
    converter = parse_record("converter", template_data("converters"))
    assert isinstance(housing, Housing)
    assert isinstance(converter, Converter)
    return Shelf(
        housings={housing.id: housing},
        converters={converter.id: converter},
        vehicle_ids=frozenset({"template-vehicle"}),
    )


def sample_plan(vehicle: Vehicle, shelf: Shelf) -> Any:
    """The plan of the template vehicle with the template converter."""
    converter = shelf.converters["template-converter"]
    return make_plan(vehicle, converter, defaults=shelf.defaults)


def hostile(value: Any, payload: str) -> Any:
    """`value` with the payload in place of every text in it that a person may choose."""
    if isinstance(value, dict):
        return {key: _hostile_item(key, inner, payload) for key, inner in value.items()}
    if isinstance(value, list):
        return [hostile(inner, payload) for inner in value]
    return payload if isinstance(value, str) else value


FREE_TEXT = frozenset(
    "make model variant generation question answer steps head hazards location sound cautions "
    "panel label by name shell_colours tell note place base stripe trim restraint_zones "
    "high_voltage_zones reason who maker jacket in_line source position tag trims bodies markets "
    "radios options_any options_none".split()
)
"""Keys whose value is free text or a free code word; word lists are left as they are."""


def _hostile_item(key: str, inner: Any, payload: str) -> Any:
    if isinstance(inner, (dict, list)) and key not in FREE_TEXT:
        if isinstance(inner, dict):
            return hostile_record(inner, payload)
        return [hostile_record(item, payload) for item in inner]
    return hostile(inner, payload) if key in FREE_TEXT else inner


def hostile_record(value: Any, payload: str) -> Any:
    """A record with the payload in every free text; words of closed lists stay."""
    if isinstance(value, dict):
        return {key: _hostile_item(key, inner, payload) for key, inner in value.items()}
    return value


__all__ = ["INFO", "hostile_record", "pytest", "sample_plan", "sample_shelf", "sample_vehicle"]

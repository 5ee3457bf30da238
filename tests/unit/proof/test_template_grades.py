"""From the text of a record to its grades: a whole vehicle, and a settled dispute in it."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from shipped_book import FULL_RECORDS

from builder.loading import load_file
from builder.model.house_defaults import HouseDefaults
from builder.model.vehicle import Vehicle
from builder.parsing import parse_record
from builder.proof.grading.grade import grade_pin
from builder.schema_check import check_shape

FULL = FULL_RECORDS / "vehicle.yaml"


@pytest.fixture(scope="module")
def data() -> dict[str, Any]:
    loaded = load_file(FULL, FULL.name)
    assert loaded.data is not None
    return dict(loaded.data)


def grades(data: dict[str, Any]) -> dict[str, str]:
    vehicle = parse_record("vehicle", data)
    assert isinstance(vehicle, Vehicle)
    return {
        f"{plug.id}.{pin.cavity}": grade_pin(vehicle, pin, HouseDefaults()).label
        for plug in vehicle.plugs
        for pin in plug.pins
    }


def test_the_template_shows_one_full_proof_of_each_kind(data: dict[str, Any]) -> None:
    found = grades(data)
    assert {found[f"A.{cavity}"] for cavity in "12345"} == {"0.80 good"}
    assert {found["A.7"], found["A.8"], found["B.7"]} == {"0.00 unproved"}


def test_a_resolution_in_the_record_ends_a_dispute(data: dict[str, Any]) -> None:
    disputed = deepcopy(data)
    disputed["plugs"][0]["pins"][0]["claims"][0] |= {"by": "harbour-sound", "says": "accessory"}
    assert grades(disputed)["A.1"] == "0.48 disputed"
    disputed["resolutions"] = [
        {
            "pin": "A.1",
            "by": "alder-pit-audio",
            "date": "2024-06-01",
            "deciding": "12.6 V after 70 minutes locked",
            "retires": ["harbour-sound"],
        }
    ]
    loaded = load_file(FULL, FULL.name)
    assert check_shape("vehicle", disputed, loaded.source_map, FULL.name) == []
    assert grades(disputed)["A.1"] == "0.80 good"

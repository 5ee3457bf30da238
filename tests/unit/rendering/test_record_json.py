"""The JSON of a record keeps what was typed apart from what was computed."""

from __future__ import annotations

import json
from datetime import date

import pytest
from page_samples import INFO

from builder.rendering.record_json import record_json


def test_raw_and_computed_never_mix() -> None:
    record = {"id": "x", "data": "invented", "edited": date(2024, 5, 14)}
    read = json.loads(record_json("vehicle", record, {"grades": {"A.1": "good"}}, INFO))
    assert read["record"] == {"id": "x", "data": "invented", "edited": "2024-05-14"}
    assert read["computed"] == {"grades": {"A.1": "good"}}
    assert read["about"]["data"] == "invented"
    assert "2024-05-13" not in str(read["about"]), (
        "one day of one car would change the files of all"
    )


def test_numbers_json_cannot_hold_are_refused() -> None:
    with pytest.raises(ValueError, match="JSON compliant"):
        record_json("vehicle", {"value": float("nan")}, {}, INFO)


def test_unknown_things_are_refused() -> None:
    with pytest.raises(TypeError, match="no place in a record's JSON"):
        record_json("vehicle", {"value": object()}, {}, INFO)

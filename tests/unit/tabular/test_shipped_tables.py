"""Every shipped vehicle as a table and back: the same record, but for what no table holds."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from samples import some
from shipped_book import FULL_RECORDS, PINOUTS
from shipped_cars import CARS, car_data

from builder.editing.short_forms import written_out
from builder.editing.tabular import NOT_HELD, csv_rows, from_tables, rows_of, xlsx_sheets
from builder.loading import load_file
from builder.spreadsheets import read_tables, write_csv, write_xlsx

VEHICLES = [*CARS, PINOUTS / "vehicles" / "TEMPLATE.yaml", FULL_RECORDS / "vehicle.yaml"]


def data_of(car: str | Path) -> dict[str, Any]:
    """The data of a shipped car with its visits, or of a file."""
    data = car_data(car) if isinstance(car, str) else load_file(car, car.name).data
    assert data is not None
    return written_out("vehicle", data)[0]


def held(record: dict[str, Any]) -> dict[str, Any]:
    """The record without what no table holds, and its readings in no order."""
    record = copy.deepcopy(record)
    for path in NOT_HELD:
        places: list[Any] = [record]
        for step in path[:-1]:
            places = [
                p for place in places for p in (place if step == 0 else [place.get(step, {})])
            ]
        for place in places:
            place.pop(path[-1], None)
    if not record.get("resolutions"):
        record.pop("resolutions", None)
    for pin in (pin for plug in record["plugs"] for pin in plug["pins"]):
        if not pin.get("readings"):
            pin.pop("readings", None)
        else:
            pin["readings"].sort(key=lambda reading: sorted(map(repr, reading.items())))
    return record


EVERY = [(car, "csv") for car in VEHICLES] + [(car, "xlsx") for car in some(VEHICLES)]
"""A workbook holds the rows of the other table, and takes much longer to write and read."""


@pytest.mark.parametrize(("car", "end"), EVERY, ids=lambda given: getattr(given, "stem", given))
def test_a_vehicle_comes_back_the_same(car, end):
    record = data_of(car)
    rows = rows_of(record)
    content = write_csv(csv_rows(rows)) if end == "csv" else write_xlsx(xlsx_sheets(rows))
    table = from_tables(read_tables(content, f"a.{end}"))
    assert [fault for fault in table.faults if fault.code not in ("TAB104", "TAB112")] == []
    assert held(table.data) == held(record)


def test_what_is_lost_is_named():
    for car in VEHICLES:
        record = data_of(car)
        lost = set(rows_of(record).lost)
        emptied = {key for key in ("how_to_tell", "accept", "photos") if record.get(key)}
        assert emptied <= lost
        if record["radio"].get("removal", {}).get("fasteners"):
            assert "radio.removal.fasteners" in lost

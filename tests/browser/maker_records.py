"""Records that the page "Take down a car" and the command are both asked about."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from shipped_book import PINOUTS, ROOT
from shipped_cars import CARS, car_data

from builder.editing.short_forms import written_out
from builder.loading import load_file

RECORDS = ROOT / "tests" / "records"
KINDS = ("vehicle", "housing")
Record = tuple[str, dict[str, Any]]


def data_of(path: Path) -> Any:
    return load_file(path, path.name).data


def example_records() -> list[Record]:
    found = [
        (kind, data_of(path))
        for kind in KINDS
        for path in sorted(RECORDS.glob(f"*valid/{kind}/*.yaml"))
        if not path.name.endswith(".expected.yaml")
    ]
    return [(kind, data) for kind, data in found if data is not None]


def shipped_records() -> list[Record]:
    template, _ = written_out("vehicle", data_of(PINOUTS / "vehicles" / "TEMPLATE.yaml"))
    housings = sorted((PINOUTS / "housings").glob("*.yaml"))
    return [
        *(("vehicle", data) for data in (template, *map(car_data, CARS))),
        *(("housing", data_of(path)) for path in housings),
    ]

"""Old notes: a shop's notebook comes in as it is, on every way in, and proves nothing."""

from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
from evidence_book import TANSY, sheet_file, small_book, vehicle_file
from shipped_book import loombook
from shipped_cars import car_data

from builder.editing.tabular import csv_rows, from_tables, rows_of
from builder.model.house_defaults import HouseDefaults
from builder.model.old_note import OldNote
from builder.model.vehicle import Vehicle
from builder.parsing import parse_record
from builder.proof.pin_proof import prove
from builder.rendering.pages.old_notes import old_note_words
from builder.schema_check import check_shape
from builder.source_map import Node, Position, SourceMap
from builder.spreadsheets import read_tables, write_csv

NOTE = {"by": "third-bay", "quantity": "dc_v", "value": 11.8, "source": "blue notebook, page 12"}
SAID = (
    "third-bay (blue notebook, page 12): 11.80 V (DC volts); "
    "day, state, load and battery not written down"
)


@pytest.fixture
def data() -> dict[str, Any]:
    return car_data(TANSY)


def noted(data: dict[str, Any], *notes: dict[str, Any]) -> dict[str, Any]:
    """The record with old notes at every pin."""
    made = deepcopy(data)
    for plug in made["plugs"]:
        for pin in plug["pins"]:
            pin["old_notes"] = [*notes]
    return made


def vehicle(data: dict[str, Any]) -> Vehicle:
    made = parse_record("vehicle", data)
    assert isinstance(made, Vehicle)
    return made


def graded(data: dict[str, Any]) -> list[tuple[Any, ...]]:
    car = vehicle(data)
    proofs = prove(car, HouseDefaults())
    pins = [pin for plug in car.plugs for pin in plug.pins]
    return [(pin.cavity, proofs[pin.path].band, proofs[pin.path].score) for pin in pins]


def test_what_nobody_wrote_down_may_be_left_out(data: dict[str, Any]) -> None:
    assert check_shape("vehicle", noted(data, NOTE), SourceMap(Node(Position(1, 1))), "x") == []
    without = [{k: v for k, v in NOTE.items() if k != key} for key in ("by", "quantity", "value")]
    for note in without:
        assert check_shape("vehicle", noted(data, note), SourceMap(Node(Position(1, 1))), "x") != []


def test_they_weigh_nothing_however_many_and_however_good_they_look(data: dict[str, Any]) -> None:
    whole = {**NOTE, "state": "asleep", "minutes": 90, "battery_v": 12.4, "load": "1a"}
    many = [{**whole, "by": f"shop-{n}", "value": value} for n in range(9) for value in (0.0, 12.4)]
    assert graded(noted(data, *many)) == graded(data)
    bare = deepcopy(data)
    for pin in (pin for plug in bare["plugs"] for pin in plug["pins"]):
        pin.pop("readings", None)
        pin.pop("claims", None)
    assert graded(noted(bare, *many)) == graded(bare)


def test_a_page_says_what_they_are_and_what_they_lack() -> None:
    assert old_note_words(OldNote(**NOTE)) == SAID  # type: ignore[arg-type]
    said = {"state": "asleep", "minutes": 90, "load": "1a", "battery_v": 12.4}
    full = OldNote(by="third-bay", date="2019-10-04", quantity="dc_v", value=12.1, **said)  # type: ignore[arg-type]
    assert "not written down" not in old_note_words(full)
    assert "battery 12.4 V" in old_note_words(full) and "after 90 min" in old_note_words(full)


def test_a_table_takes_them_in_and_gives_them_back(data: dict[str, Any]) -> None:
    for plug in data["plugs"]:
        plug["pins"] = plug["pins"][:3]
    made = noted(data, NOTE, {**NOTE, "state": "run", "battery_v": 12.2})
    read = from_tables(read_tables(write_csv(csv_rows(rows_of(made))), "car.csv"))
    pins = [pin for plug in read.data["plugs"] for pin in plug["pins"]]
    assert pins and all(len(pin["old_notes"]) == 2 for pin in pins)
    assert pins[0]["old_notes"] == made["plugs"][0]["pins"][0]["old_notes"]


def test_a_sheet_brings_them_in_once(tmp_path: Path) -> None:
    book = small_book(tmp_path / "book")
    sheet = sheet_file(tmp_path / "sheet.yaml", f"vehicle: {TANSY}")
    line = ", ".join(f"{key}: {json.dumps(value)}" for key, value in NOTE.items())
    text = sheet.read_text("utf-8") + f"old_notes:\n  - {{plug: A, cavity: 4, {line}}}\n"
    sheet.write_text(text, "utf-8")
    before = vehicle_file(book, TANSY).read_text("utf-8")
    added = loombook("evidence", "add", sheet, "--book", book, "--format", "json")
    assert added.exit_code == 0, added.output
    told = json.loads(added.stdout)
    assert told["old_notes"] == [{"place": "A.4", "words": f"old note, proves nothing: {SAID}"}]
    assert told["readings"] == [] and told["grades"] == []
    after = vehicle_file(book, TANSY).read_text("utf-8")
    assert after.count("old_notes:") == before.count("old_notes:") + 1
    assert after.count("third-bay") == 1, "no visit is made for it"
    again = loombook("evidence", "add", sheet, "--book", book)
    assert "already: nothing changed" in again.output
    assert vehicle_file(book, TANSY).read_text("utf-8") == after


def test_a_sheet_that_names_no_such_wire_is_refused(tmp_path: Path) -> None:
    book = small_book(tmp_path / "book")
    sheet = sheet_file(tmp_path / "sheet.yaml", f"vehicle: {TANSY}")
    note = "{plug: A, cavity: 99, by: third-bay, quantity: dc_v, value: 11.8}"
    sheet.write_text(sheet.read_text("utf-8") + f"old_notes:\n  - {note}\n", "utf-8")
    done = loombook("evidence", "add", sheet, "--book", book)
    assert done.exit_code == 1 and "does not describe A.99" in done.output

"""A sheet that was counted on the other face counts for the cavities it is about."""

from __future__ import annotations

import json
import re
from pathlib import Path

from evidence_book import BRINDLE, sheet_file, small_book, vehicle_file
from shipped_book import ROOT, loombook

TURN_ON = (
    "{{plug: A, cavity: {}, state: radio_on_zero, load: 50ma, "
    "quantity: dc_v, value: 11.9, battery_v: 12.4}}"
)


def book_with_a_line_for_17(folder: Path) -> Path:
    """In this shell of two rows of nine, 17 stands where 11 is on the other face."""
    book = small_book(folder)
    path = vehicle_file(book, BRINDLE)
    text = path.read_text("utf-8")
    text = re.sub(r"(    empty: \[)17(?:, )?", r"\1", text, count=1)
    line = "      - cavity: 18\n"
    assert text.count(line) == 1
    path.write_text(
        text.replace(line, f"      - {{cavity: 17, function: unknown}}\n{line}"), "utf-8"
    )
    return book


def added(book: Path, cavity: int, face: str, place: Path) -> list[dict[str, str]]:
    sheet = sheet_file(place, f"vehicle: {BRINDLE}", TURN_ON.format(cavity))
    text = sheet.read_text("utf-8").replace("read_from: wire_side", f"read_from: {face}")
    sheet.write_text(text, "utf-8")
    done = loombook("evidence", "add", sheet, "--book", book, "--format", "json")
    grades = json.loads(done.output)["grades"]
    return [{key: one[key] for key in ("place", "before", "after")} for one in grades]


def test_a_sheet_of_the_other_face_raises_the_pin_it_is_about(tmp_path):
    rise = [{"place": "A.11", "before": "check first", "after": "good"}]
    own = book_with_a_line_for_17(tmp_path / "own")
    assert added(own, 11, "wire_side", tmp_path / "own.yaml") == rise
    other = book_with_a_line_for_17(tmp_path / "other")
    assert added(other, 17, "mating_side", tmp_path / "other.yaml") == rise
    (visit,) = (other / "visits" / BRINDLE).glob("third-bay-*.yaml")
    assert "read_from: mating_side" in visit.read_text("utf-8")


def test_a_sheet_whose_cavity_has_no_line_there_is_not_counted_and_says_so(tmp_path):
    book = small_book(tmp_path / "book")
    assert added(book, 11, "mating_side", tmp_path / "s.yaml") == []
    done = loombook("check", book)
    assert "BOK127" in done.output and "does not describe A.17, the other face's 11" in done.output


ON_NO_FACE = {"mending_photos.py"}
"""It asks for the names of photos, which are the same on either face."""


def test_whoever_reads_a_vehicle_reads_it_turned():
    """One function turns; a module of the pipeline that asks for vehicles goes through it.

    Visits are added to what was turned, and moving them compares with that.
    """
    missing = []
    for path in sorted((ROOT / "builder" / "pipeline").glob("*/*.py")):
        text = path.read_text("utf-8")
        reads = "read_record(" in text and re.search(r"isinstance\([^)]*, Vehicle\)", text)
        if reads and "as_counted(" not in text and path.name not in ON_NO_FACE:
            missing.append(path.name)
    assert missing == []
    turners = [
        path.name
        for path in sorted((ROOT / "builder").rglob("*.py"))
        if re.search(r"\bturned\(.*housings\)", path.read_text("utf-8"))
    ]
    assert turners == ["visit_moving.py", "records.py", "visits.py"]

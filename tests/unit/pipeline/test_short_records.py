"""A record that says things in short is checked, planned, changed and mended like a whole one."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
from evidence_book import JOB, TANSY, small_book, vehicle_file
from said_in_lines import bare, pin_line, sayable
from shipped_book import PINOUTS, loombook

from builder.book import open_book
from builder.editing import Edit, apply_edits
from builder.editing.layout import part_at, read_layout
from builder.loading import load_file
from builder.pipeline.answers.answering import vehicle_meant

LEFT_OUT = ("open_load_check", "data_wake", "engine_sound", "emergency_call")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """The shipped cars, but that one says what it can in short."""
    book = small_book(tmp_path / "book")
    file = vehicle_file(book, TANSY)
    text = file.read_text("utf-8")
    for key in LEFT_OUT:
        text = re.sub(rf"(?m)^  {key}: \w+\n", "", text)
    file.write_text(shortened(text, load_file(file, file.name).data), "utf-8")
    return book


def shortened(text: str, data) -> str:
    """The text with each pin in the place of whose entry one line can stand, as that line."""
    root, edits = read_layout(text), []
    for at, plug in enumerate(data["plugs"]):
        for place, pin in enumerate(plug["pins"]):
            if sayable(pin) and pin == bare(pin):
                part = part_at(root, ("plugs", at, "pins", place))
                whole = text[part.start : part.end].rstrip()
                edits.append(Edit(part.start, part.start + len(whole), pin_line(pin)))
    return apply_edits(text, edits)


def car(book: Path, name: str = TANSY):
    return vehicle_meant(open_book(book), name)[1]


def told(book: Path) -> list[tuple[str, str]]:
    done = loombook("check", book, "--format", "json")
    assert "Traceback" not in done.output
    return [(f["rule"], f["severity"]) for f in json.loads(done.stdout)["findings"]]


def test_it_is_read_with_a_note_and_plans_are_the_same_before_and_after_mend(book: Path) -> None:
    found = told(book)
    assert found.count(("SCH118", "note")) == 2  # radio and features
    assert found.count(("SCH117", "note")) >= 3
    assert not [each for each in found if each[0] == "SCH116"]
    before = car(book), loombook("plan", JOB, "-b", book, "--format", "json").stdout
    assert before[0].radio.data_wake == "unknown"
    assert loombook("check", book).exit_code == 0
    assert loombook("mend", vehicle_file(book, TANSY), "-b", book).exit_code == 0
    assert not [each for each in told(book) if each[0].startswith("SCH")]
    after = car(book)
    assert (after.radio, after.features) == (before[0].radio, before[0].features)
    assert [plug.pins for plug in after.plugs] == [plug.pins for plug in before[0].plugs]
    assert loombook("tidy", "--check", "-b", book).exit_code == 0


def test_mend_writes_what_the_shipped_record_says(book: Path) -> None:
    assert loombook("mend", vehicle_file(book, TANSY), "-b", book).exit_code == 0
    shipped = PINOUTS / "vehicles" / "ostrel" / f"{TANSY}.yaml"
    mended, whole = (load_file(path, "x").data for path in (vehicle_file(book, TANSY), shipped))
    for plug, shipped_plug in zip(mended["plugs"], whole["plugs"], strict=True):
        pins = [{key: pin[key] for key in pin if key != "readings"} for pin in shipped_plug["pins"]]
        assert plug["pins"] == pins  # what was measured is in files of its own by now
    for part in ("radio", "features"):
        unknown = {key: "unknown" for key in LEFT_OUT if key in whole[part]}
        assert mended[part] == whole[part] | unknown


def test_lines_that_are_not_read_stop_the_record_and_lose_nothing(book: Path) -> None:
    file = vehicle_file(book, TANSY)
    text = file.read_text("utf-8").replace("    pins:\n", "    pins:\n      - 18 illum bl/wht\n", 1)
    file.write_text(text, "utf-8")
    done = loombook("check", file, "-b", book)
    assert done.exit_code == 1
    at = text[: text.index("18 illum")].count("\n") + 1
    assert f'{TANSY}.yaml:{at}:9: stop SCH116 "bl" in "18 illum bl/wht" could be' in done.output
    done = loombook("mend", file, "-b", book)
    assert done.exit_code in (1, 3) and "18 illum bl/wht" in file.read_text("utf-8")


@pytest.mark.parametrize("listed", ["[8, 9, 18, 19]", "[8, 9, 18]", "[]"])
def test_a_cavity_that_is_empty_goes_where_empty_ones_stand(book: Path, listed: str) -> None:
    file = vehicle_file(book, TANSY)
    text, free = file.read_text("utf-8"), 19
    assert f"cavity: {free}," not in text and "empty: [8, 9, 18, 19]" in text
    text = text.replace("empty: [8, 9, 18, 19]", f"empty: {listed}")
    file.write_text(
        text.replace("    pins:\n", f"    pins:\n      - {free} nothing in it\n", 1), "utf-8"
    )
    assert loombook("check", file, "-b", book).exit_code == 1
    loombook("mend", file, "-b", book)
    plug = load_file(file, "x").data["plugs"][0]
    assert free in plug["empty"] and all(pin["cavity"] != free for pin in plug["pins"])
    assert not [each for each in told(book) if each[0].startswith("SCH")]


def test_an_example_may_say_things_in_short_and_stays_so(book: Path) -> None:
    example = book / "vehicles" / "TEMPLATE.yaml"
    shutil.copy(PINOUTS / "vehicles" / "TEMPLATE.yaml", example)
    before = example.read_bytes()
    done = loombook("check", example, "-b", book, "--format", "json")
    assert not [f for f in json.loads(done.stdout)["findings"] if f["rule"].startswith("SCH")]
    loombook("mend", example, "-b", book)
    assert example.read_bytes() == before


def test_a_visit_of_a_short_record_is_withdrawn(book: Path) -> None:
    file = vehicle_file(book, TANSY)
    lines = file.read_text("utf-8").count("\n")
    assert loombook("mend", "--visits", file, "-b", book).exit_code == 0
    visit = next((book / "visits" / TANSY).glob("*.yaml")).stem
    done = loombook(
        *("visit", "withdraw", visit, "--at", "A.7", "--because", "its meter was broken"),
        *("--date", "2026-01-02", "-b", book),
    )
    assert done.exit_code == 0, done.output
    assert ("SCH117", "note") in told(book) and lines
    assert car(book).resolutions

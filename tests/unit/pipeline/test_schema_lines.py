"""The first line of a new record leads an editor to its schema, wherever the book stands."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook

from builder.book import open_book
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.site.maker_pages import maker_scripts
from builder.pipeline.site.reference_pages import schemas

CABLE = (
    *("--name", "Twin 15", "--use", "speaker_pair", "--size", "14 awg", "--jacket", "black"),
    *("--pairs", "red black", "--singles", "none"),
)


def lines_of_page(book: Path) -> dict[str, str]:
    """What the page "Take down a car" writes first, by kind."""
    (_, data), *_ = maker_scripts(check_book(open_book(book)), schemas())
    kinds = json.loads(data.decode().partition("=")[2].rstrip(";\n"))["style"]["kinds"]
    return {kind: each["schema_line"].partition("$schema=")[2] for kind, each in kinds.items()}


@pytest.mark.parametrize("book", ["started", "bare"])
def test_the_command_names_a_schema_that_is_there(tmp_path, book):
    folder = tmp_path / book
    if book == "bare":
        (folder / "cables").mkdir(parents=True)
    else:
        assert loombook("start", folder, "--alone").exit_code == 0
    loombook("new", "cable", "--book", folder, *CABLE)
    record = folder / "cables" / "twin-15.yaml"
    named = record.read_text("utf-8").splitlines()[0].partition("$schema=")[2]
    assert (record.parent / named).is_file()
    if book == "started":
        assert (record.parent / named).resolve() == folder / "schema" / "cable.schema.json"


SOMEBODY_ELSES = '{"type": "object", "not": {}}'


@pytest.mark.parametrize("book", ["started", "bare"])
def test_a_schema_folder_above_the_book_is_nobody_of_ours(tmp_path, book):
    (tmp_path / "schema").mkdir()
    for name in ("cable", "converter", "defs"):
        (tmp_path / "schema" / f"{name}.schema.json").write_text(SOMEBODY_ELSES, "utf-8")
    folder = tmp_path / book
    if book == "bare":
        (folder / "cables").mkdir(parents=True)
    else:
        assert loombook("start", folder, "--alone").exit_code == 0
    assert loombook("new", "cable", "--book", folder, *CABLE).exit_code == 0  # none takes this
    record = folder / "cables" / "twin-15.yaml"
    named = record.read_text("utf-8").splitlines()[0].partition("$schema=")[2]
    assert tmp_path / "schema" not in (record.parent / named).resolve().parents
    assert loombook("tidy", "--check", record, "--book", folder).exit_code == 0
    assert "schema/cable" not in lines_of_page(folder).get("cable", "") or book == "started"


def test_the_page_names_the_schema_from_where_the_book_puts_a_record(tmp_path):
    folder = tmp_path / "started"
    assert loombook("start", folder, "--alone").exit_code == 0
    lines = lines_of_page(folder)
    assert (folder / "vehicles" / "make" / lines["vehicle"]).resolve().is_file()
    assert (folder / "housings" / lines["housing"]).resolve().is_file()
    lines = lines_of_page(PINOUTS)
    assert lines["vehicle"] == "../../../schema/vehicle.schema.json"
    assert (PINOUTS / "housings" / lines["housing"]).is_file()

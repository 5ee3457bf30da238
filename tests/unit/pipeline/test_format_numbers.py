"""The number of the record format: what is said of an old, a new and a missing one, and typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook

from builder.data_files import schema_folder

RECORD = "cables/twin-16.yaml"
LINE = "schema: 1\n"


def with_line(book: Path, line: str) -> Path:
    record = book / RECORD
    text = record.read_text("utf-8")
    assert text.count(LINE) == 1
    record.write_text(text.replace(LINE, line), "utf-8")
    return record


@pytest.mark.parametrize(
    ("line", "rule"),
    [("", 'SCH102 key "schema"'), ("schema: 0\n", "SCH114"), ('schema: "1"\n', "SCH103 ")],
    ids=["missing", "before the first", "as text"],
)
def test_a_number_that_can_mean_one_format_only_is_told_and_typed(small_book, line, rule):
    record = with_line(small_book, line)
    told = loombook("check", small_book)
    assert told.exit_code == 1 and f"{RECORD}:" in told.output and rule in told.output
    assert any(line in told.output for line in ("add schema: 1", "type schema: 1", "type 1:"))
    done = loombook("mend", record, "--book", small_book)
    assert done.exit_code == 0, done.output
    assert record.read_text("utf-8") == (PINOUTS / RECORD).read_text("utf-8")


@pytest.mark.parametrize("line", ["schema: 2\n", "schema: 1.5\n", "schema: first\n"])
def test_a_record_of_another_format_is_never_called_one_of_this(small_book, line):
    record = with_line(small_book, line)
    before = record.read_text("utf-8")
    told = loombook("check", small_book)
    assert told.exit_code == 1 and f"{RECORD}:4:9: stop SCH1" in told.output
    assert loombook("mend", record, "--book", small_book).exit_code == 1
    assert record.read_text("utf-8") == before


def test_a_newer_record_is_not_advised_to_be_typed_down(small_book):
    with_line(small_book, "schema: 2\n")
    told = loombook("check", small_book).output
    assert "use a newer version of loombook" in told and "type schema" not in told


def test_the_colours_of_the_first_records_are_typed_as_they_are_spelt_now(small_book):
    record = small_book / RECORD
    text = record.read_text("utf-8")
    old = text.replace("jacket: ", "jacket: light_blue  # ", 1)
    assert old != text
    record.write_text(old, "utf-8")
    assert loombook("mend", record, "--book", small_book).exit_code == 0
    assert "jacket: light blue" in record.read_text("utf-8")


def test_schemas_of_an_earlier_version_are_renewed_by_start(tmp_path):
    """What CHANGES.md tells a shop to type after an upgrade."""
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    for file in (tmp_path / "ours" / "schema").iterdir():
        file.unlink()
    assert loombook("start", tmp_path / "ours", "--alone").exit_code == 0
    for file in schema_folder().iterdir():
        assert (tmp_path / "ours" / "schema" / file.name).read_bytes() == file.read_bytes()

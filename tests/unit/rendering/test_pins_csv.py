"""The table of pins: RFC 4180, no cell a spreadsheet runs, nothing lost on the way back."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from site_folder import plain_cell

from builder.rendering.pins_csv import COLUMNS, RUNS, header, inert, metadata


@pytest.mark.parametrize("sign", [*RUNS, "'"])
@pytest.mark.parametrize("before", ["", " ", "   "])
def test_a_cell_that_would_run_gets_an_apostrophe(sign: str, before: str) -> None:
    text = f"{before}{sign}1+1"
    if sign == "'" and before:
        assert inert(text) == text
    else:
        assert inert(text) == "'" + text
    assert plain_cell(inert(text)) == text


@pytest.mark.parametrize("text", ["", "white/black", "a=b", "12", "über", "a,b", 'say "no"'])
def test_other_cells_stay_as_they_are(text: str) -> None:
    assert inert(text) == text


@pytest.mark.parametrize(
    ("value", "cell"), [(None, ""), (15.0, "15"), (0.35, "0.35"), (2017, "2017"), (-1, "-1")]
)
def test_numbers_are_written_whole_and_nothing_is_empty(value: object, cell: str) -> None:
    assert inert(value) == cell


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=30))
def test_every_text_comes_back_through_a_reader(text: str) -> None:
    line = io.StringIO()
    csv.writer(line, lineterminator="\r\n").writerow([inert(text), "end"])
    [row] = list(csv.reader(io.StringIO(line.getvalue(), newline="")))
    assert [plain_cell(row[0]), row[1]] == [text, "end"]
    assert inert(text).lstrip(" ")[:1] not in tuple(RUNS)


def test_columns_are_described_once_and_computed_ones_are_marked_and_last() -> None:
    names = [column.name for column in COLUMNS]
    assert header() == ",".join(names) + "\r\n"
    assert len(set(names)) == len(names)
    computed = [name.startswith("computed_") for name in names]
    assert computed == sorted(computed)
    assert sum(computed) == 2
    told = metadata("CC0-1.0", "2025-05-15")["tableSchema"]
    assert [column["name"] for column in told["columns"]] == names
    assert all(column["dc:description"] for column in told["columns"])
    assert set(told["primaryKey"]) <= set(names)


@pytest.mark.parametrize(
    ("unit", "suffix"), [("in mm²", "_mm2"), ("in A.", "_a"), ("in mA", "_ma"), ("in V", "_v")]
)
def test_a_column_with_a_unit_has_it_in_its_name(unit: str, suffix: str) -> None:
    with_unit = [column.name for column in COLUMNS if unit in column.what]
    assert with_unit
    assert all(name.endswith(suffix) for name in with_unit)

"""A table of damage: each is named at its cell, or read as what it surely means."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import many
from tables import CAR, pins, read, told

from builder.editing.tabular import from_tables
from builder.editing.tabular.columns import COLUMNS
from builder.editing.tabular.headings import WIDE, column_of
from builder.spreadsheets import Cell, Sheet

CASES = yaml.safe_load((Path(__file__).parent / "damaged_tables.yaml").read_text("utf-8"))
REFUSED = [case for case in CASES if "faults" in case]
READ = [case for case in CASES if "pin" in case]
WHO = "who,date,car tag"
SAID = "north,2024-05-13,k7m2"
NOTES = ("TAB104", "TAB112")


@pytest.mark.parametrize("case", REFUSED, ids=[case["name"] for case in REFUSED])
def test_damage_is_named_at_its_cell(case):
    imported = read(case["heads"], *case["rows"])
    assert told(imported) == [tuple(fault) for fault in case["faults"]]
    assert all(f.message and f.help for f in imported.faults if f.code not in NOTES)


def test_rows_filled_only_where_nothing_is_read_are_counted():
    imported = read("plug,cavity,function,price", "A,1,ground,3", ",,,12", ",,,14", ",,,")
    said = [(f.place.row, f.message) for f in imported.faults if "rows are" in f.message]
    (row, message) = said[0]
    assert len(said) == 1 and message.startswith("2 rows are filled only in columns that are not")
    assert imported.faults[0].place.row < row


@pytest.mark.parametrize("case", READ, ids=[case["name"] for case in READ])
def test_what_is_surely_meant_is_read(case):
    imported = read(case["heads"], *case["rows"])
    assert told(imported) == []
    (found,) = pins(imported)
    assert {key: found.get(key) for key in case["pin"]} == case["pin"]


def test_both_meanings_of_a_short_colour_are_offered():
    (fault,) = [
        f for f in read("plug,cavity,function,colour", "A,1,run,bl").faults if f.code == "TAB109"
    ]
    assert "black" in fault.message and "blue" in fault.message and "blue" in fault.help


def test_an_extra_column_is_named_in_a_note():
    noted = [
        f.message
        for f in read("plug,cavity,price,function", "A,1,3,run").faults
        if f.code == "TAB104"
    ]
    assert noted == ['the column "price" is not read']


@pytest.mark.parametrize("hidden", ["\u202e", "\x1b[31m", "\u200b"])
def test_what_nobody_can_see_is_named_and_not_printed(hidden):
    imported = read(f"plug,cavity,function,note,{hidden}price", f"A,1,run,{hidden}x,1")
    assert told(imported) == [("TAB108", "E1"), ("TAB108", "D2")]
    assert not any(hidden[0] in f.message for f in imported.faults)


def test_further_rows_add_readings_of_another_visit():
    imported = read(
        f"plug,cavity,function,run V,battery V,{WHO}",
        f"A,1,run,12.3,12.4,{SAID}",
        "A,1,,12.1,12.2,south,2024-06-01,plum-9",
    )
    assert told(imported) == []
    (pin,) = pins(imported)
    assert [r["session"] for r in pin["readings"]] == ["s1", "s2"]
    assert [s["by"] for s in imported.data["sessions"]] == ["north", "south"]


def test_the_other_leg_is_found_wherever_it_stands():
    imported = read(
        f"plug,cavity,function,ohm to other leg,{WHO}", f"A,4,fl+,3.3,{SAID}", "A,7,fl-,,,,"
    )
    assert pins(imported)[0]["readings"][0]["against"] == 7


@pytest.mark.parametrize("label", ["make", "model", "year from"])
def test_what_the_car_must_say_is_asked_for(label):
    car = "".join(line + "\n" for line in CAR.splitlines() if not line.startswith(f"#{label},"))
    missing = [
        f for f in read("plug,cavity,function", "A,1,run", car=car).faults if f.code == "TAB111"
    ]
    assert [f.message for f in missing] == [f"{label} is not said"]
    assert f"fill the row #{label} above the pins" in missing[0].help


@pytest.mark.parametrize(
    ("label", "path"),
    [
        ("restraint zones", ("safety", "restraint_zones")),
        ("protected sounds", ("protected_sounds",)),
    ],
)
def test_a_danger_that_a_table_does_not_speak_of_is_unknown_and_told(label, path):
    car = "".join(line + "\n" for line in CAR.splitlines() if not line.startswith(f"#{label},"))
    imported = read("plug,cavity,function", "A,1,run", car=car)
    value = imported.data
    for key in path:
        value = value[key]
    assert value == ["unknown"]
    assert any(f"{label} unknown" in f.message for f in imported.faults if f.code == "TAB112")


def test_every_heading_of_the_template_means_itself():
    for column in (*COLUMNS, *WIDE):
        assert column_of(column.heading) == column, column.heading
    names = [name for column in COLUMNS for name in column.others]
    assert len(set(names)) == len(names)


TEXTS = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["A", "1", "fl+", "12,4", "01-Feb", "=1", "open", "none", "unknown", "red/blue", "#x", "-"]
    ),
)  # fmt: skip
HEADS = st.sampled_from(
    [c.heading for c in COLUMNS] + [w.heading for w in WIDE] + ["?", "ohm to 7"]
)
KINDS = st.sampled_from(
    ["text", "number", "yes_no", "date", "formula", "error", "percent", "merged"]
)


@settings(max_examples=many(150), deadline=None)
@given(
    st.lists(HEADS, max_size=9),
    st.lists(st.lists(st.tuples(TEXTS, KINDS), max_size=9), max_size=6),
    st.booleans(),
)
def test_no_table_whatever_ends_in_a_traceback(heads, rows, as_car):
    head = tuple(
        Cell(1, n, text) for n, text in enumerate(["plug", "cavity", "function", *heads], 1)
    )
    body = tuple(
        tuple(Cell(r, c, text, kind) for c, (text, kind) in enumerate(row, 1) if text)
        for r, row in enumerate(rows, 2)
    )
    sheets = [Sheet("pins", (head, *body)), *([Sheet("car", body)] if as_car else [])]
    imported = from_tables(sheets)
    assert imported.data["schema"] == 1
    assert all(fault.message for fault in imported.faults)

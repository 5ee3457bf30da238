"""`import` and `new table` on a small book."""

from __future__ import annotations

import csv
import json
import shutil
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from killing import killed_at
from shipped_book import PINOUTS

from builder.book import open_book
from builder.cli.main import main
from builder.editing.tabular.car_fields import FIELDS
from builder.editing.tabular.columns import COLUMNS
from builder.editing.tabular.headings import WIDE
from builder.loading import load_text
from builder.model.house_defaults import HouseDefaults
from builder.pipeline.changing.importing import import_table, write_imported
from builder.pipeline.checking.book_check import check_book
from builder.rendering.handbook import fill_in
from builder.spreadsheets import write_csv

TANSY = "ostrel-tansy-2017-hatch-base"
CAR = """\
#make,Zorvex
#model,Wold
#variant,"hatch, base"
#year from,2018
#year to,2021
#drive side,left
#data,invented
#hybrid,no
#factory amplifier,none
#restraint zones,steering wheel
#protected sounds,none
#plug A housing,two-row-20-latch-top
#plug A shell colours,grey
#plug A read from,wire_side
plug,cavity,function,colour,asleep V,asleep min,run 1a V,battery V,who,date,car tag
A,1,fl+,brown/white,,,,,,,
A,2,fl-,brown/black,,,,,,,
A,6,ground,black,,,0.02,12.4,north,2024-05-13,k7m2
A,7,constant,yellow/red,12.6,65,12.4,12.6,north,2024-05-13,k7m2
"""


@pytest.fixture
def book(small_book: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(PINOUTS.parent / "schema", small_book / "schema")
    monkeypatch.chdir(small_book.parent)
    Path("car.csv").write_text(CAR, "utf-8")
    return small_book


def run(*arguments: object) -> Result:
    done = CliRunner().invoke(main, [str(word) for word in arguments])
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done


def wold(book: Path) -> Path:
    return book / "vehicles" / "zorvex" / "zorvex-wold-2018-hatch-base.yaml"


def test_a_table_becomes_a_record_that_checks_but_for_its_gaps(book):
    done = run("import", "car.csv", "--into", book)
    assert "is written" in done.output
    mine = [f for f in check_book(open_book(book)).findings if f.file.endswith(wold(book).name)]
    assert {f.rule_id for f in mine if f.fails_check} <= {"EVD101"}
    record = yaml.safe_load(wold(book).read_text("utf-8"))
    assert record["sessions"][0]["car"] == {"tag": "k7m2"}
    assert record["plugs"][0]["pins"][3]["readings"][0]["minutes"] == 65


def test_a_finding_of_the_record_names_the_cell_it_came_from(book):
    Path("car.csv").write_text(CAR.replace("A,6,ground", "A,26,ground"), "utf-8")
    done = run("import", "car.csv", "--into", book)
    assert done.exit_code == 1 and not wold(book).exists()
    assert "car.csv:B18: stop PIN102" in done.output


def test_a_figure_against_its_function_is_held_unless_it_is_said_to_be_right(book):
    Path("car.csv").write_text(CAR.replace("12.6,65,12.4", "0.02,65,12.4"), "utf-8")
    held = run("import", "car.csv", "--into", book)
    assert held.exit_code == 1 and not wold(book).exists() and "--as-is" in held.output
    assert "car.csv:E19: stop MET" in held.output
    assert run("import", "car.csv", "--into", book, "--as-is").exit_code == 3
    assert wold(book).exists()


def test_nothing_is_written_while_the_table_has_a_fault(book):
    Path("car.csv").write_text(CAR.replace("A,2,", "A,2. Feb,"), "utf-8")
    done = run("import", "car.csv", "--into", book)
    assert done.exit_code == 1 and not wold(book).parent.exists()
    assert "car.csv:B17: stop TAB105" in done.output
    shown = json.loads(run("import", "car.csv", "--into", book, "--format", "json").stdout)
    (fault,) = [f for f in shown["findings"] if f["rule"] == "TAB105"]
    assert (fault["cell"], fault["line"], fault["column"]) == ("B17", 17, 2)


def test_a_dry_run_prints_what_would_be_written(book):
    printed = run("import", "car.csv", "--into", book, "--dry-run").stdout
    assert not wold(book).exists()
    run("import", "car.csv", "--into", book)
    assert printed == wold(book).read_text("utf-8")


def test_a_record_is_never_overwritten_unless_asked(book):
    place = book / "vehicles" / "ostrel" / f"{TANSY}.yaml"
    old = place.read_bytes()
    assert run("new", "table", "tansy.xlsx", "--of", TANSY, "-b", book).exit_code == 0
    done = run("import", "tansy.xlsx", "--into", book)
    assert done.exit_code == 1 and place.read_bytes() == old
    assert "tansy.xlsx:car!B2: stop TAB113" in done.output
    assert "evidence add" in done.output and "--replace" in done.output
    done = run("import", "tansy.xlsx", "--into", book, "--replace")
    assert "loses what no table holds: radio.removal" in done.output
    assert place.read_bytes() != old
    assert yaml.safe_load(place.read_text("utf-8"))["id"] == TANSY


@pytest.mark.parametrize("name", ["a.xlsx", "a.csv"])
def test_the_empty_table_says_what_it_needs_and_nothing_is_written(book, name):
    assert run("new", "table", name).exit_code == 0
    content = Path(name).read_bytes()
    assert run("new", "table", name).exit_code == 2  # never overwritten
    assert Path(name).read_bytes() == content
    done = run("import", name, "--into", book)
    assert done.exit_code == 1 and "make is not said" in done.output


def test_other_names_and_cars_are_wrong_use(book):
    assert run("new", "table", "a.ods").exit_code == 2
    assert run("new", "table", "a.xlsx", "--of", "no-such-car", "-b", book).exit_code == 2
    Path("a.ods").write_bytes(b"x")
    done = run("import", "a.ods", "--into", book)
    assert done.exit_code == 1 and "TAB101" in done.output


def test_a_killed_import_leaves_a_whole_record_or_none(book):
    record = import_table(open_book(book), Path("car.csv"))
    number, seen = 1, set()
    while killed_at(number, lambda: write_imported(record)):
        found = sorted(path.read_text("utf-8") for path in book.glob("vehicles/zorvex/*.yaml"))
        assert found in ([], [record.text])
        seen.add(len(found))
        wold(book).unlink(missing_ok=True)
        number += 1
    assert number > 5 and seen == {0, 1}


def test_a_killed_replacement_leaves_the_old_or_the_new(book):
    run("import", "car.csv", "--into", book)
    old = wold(book).read_text("utf-8")
    Path("car.csv").write_text(CAR.replace("brown/white", "green/white"), "utf-8")
    record = import_table(open_book(book), Path("car.csv"), replacing=True)
    number, seen = 1, set()
    while killed_at(number, lambda: write_imported(record)):
        text = wold(book).read_text("utf-8")
        assert text in (old, record.text)
        seen.add(text)
        wold(book).write_text(old, "utf-8")
        number += 1
    assert seen == {old, record.text}


def test_the_handbook_prints_the_columns_of_the_template():
    page = fill_in("<!-- table columns -->", HouseDefaults())
    for column in (*COLUMNS, *WIDE):
        assert f"| {column.heading} |" in page
    for field in FIELDS:
        assert f"| {field.heading} |" in page


CELLS = st.one_of(
    st.text(max_size=30),
    st.sampled_from(
        ["../../x", "con", "a\x07b", "\u202e", "none", "#", "12,4", "{a: b}", "- a", "''"]
    ),
)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.integers(0, 400), CELLS)
def test_whatever_a_cell_holds_there_is_a_record_or_a_finding(book, place, text):
    rows = list(csv.reader(CAR.splitlines()))
    places = [(r, c) for r, row in enumerate(rows) for c in range(len(row))]
    row, column = places[place % len(places)]
    rows[row][column] = text
    Path("car.csv").write_bytes(write_csv(rows))
    record = import_table(open_book(book), Path("car.csv"))
    assert all(finding.message for finding in record.findings)
    if record.path is None:
        assert any(finding.fails_check for finding in record.findings)
    else:
        assert record.path.resolve().is_relative_to(book.resolve())
        assert load_text(record.text, "").data == record.data

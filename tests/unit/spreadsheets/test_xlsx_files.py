"""Workbooks: what stood in a cell, and workbooks that are not safe to open."""

from __future__ import annotations

import io
import time
import zipfile
from datetime import date

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import many

from builder.spreadsheets import Laid, NewSheet, RefusedFileError, read_tables, write_xlsx


def workbook(fill) -> bytes:
    book = openpyxl.Workbook()
    fill(book.active)
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def repacked(content: bytes, changes: dict[str, bytes]) -> bytes:
    """The workbook with parts replaced or added."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            if name not in changes:
                new.writestr(name, old.read(name))
        for name, data in changes.items():
            new.writestr(name, data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def plain() -> bytes:
    return workbook(lambda sheet: sheet.append(["plug", "cavity"]))


def sheet_xml(inside: str, head: str = "") -> bytes:
    space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    text = f'<?xml version="1.0"?>{head}<worksheet xmlns="{space}">{inside}</worksheet>'
    return text.encode()


SHEET = "xl/worksheets/sheet1.xml"
ENTITIES = '<!DOCTYPE w [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'
FETCHED = '<!DOCTYPE w [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
CELL = (
    "<sheetData><row r='{row}'><c r='{at}' t='inlineStr'><is><t>{text}</t></is></c></row>"
    "</sheetData>"
)
HOSTILE = {
    "macros": {"xl/vbaProject.bin": b"x"},
    "links": {"xl/externalLinks/externalLink1.xml": b"<a/>"},
    "controls": {"xl/activeX/activeX1.xml": b"<a/>"},
    "queries": {"xl/connections.xml": b"<a/>"},
    "bomb": {"xl/media/a.xml": b"<a>" + b" " * 30_000_000 + b"</a>"},
    "many parts": {f"xl/p{n}.bin": b"" for n in range(400)},
    "many spreadsheets": {f"xl/worksheets/sheet{n}.xml": sheet_xml("") for n in range(2, 40)},
    "entities": {SHEET: sheet_xml(CELL.format(row=1, at="A1", text="&b;"), ENTITIES)},
    "fetched": {SHEET: sheet_xml(CELL.format(row=1, at="A1", text="&x;"), FETCHED)},
    "hidden entities": {"xl/x.xml": ENTITIES.encode("utf-16") + "<w/>".encode("utf-16")[2:]},
    "last row": {SHEET: sheet_xml(CELL.format(row=1048576, at="A1048576", text="x"))},
    "last column": {SHEET: sheet_xml(CELL.format(row=1, at="XFD1", text="x"))},
    "row beyond": {SHEET: sheet_xml("<sheetData><row r='99999999'/></sheetData>")},
    "no place": {SHEET: sheet_xml(CELL.format(row=1, at="A1:B2", text="x"))},
    "long cell": {SHEET: sheet_xml(CELL.format(row=1, at="A1", text="x" * 9000))},
    "no xml": {SHEET: b"<worksheet><sheetData>"},
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_workbook_is_refused_at_once(name):
    content = repacked(plain(), HOSTILE[name])
    before = time.monotonic()
    with pytest.raises(RefusedFileError) as refused:
        read_tables(content, "car.xlsx")
    assert str(refused.value) and refused.value.help
    assert time.monotonic() - before < 5  # far above what it takes, far below what it could take


def rows_xml(count: int, cells: str, addressed: bool = False) -> str:
    rows = (f"<row r='{n}'>" if addressed else "<row>" for n in range(1, count + 1))
    return "<sheetData>" + "".join(f"{row}{cells}</row>" for row in rows) + "</sheetData>"


TEXT = "<c t='inlineStr'><is><t>x</t></is></c>"


def test_rows_and_cells_without_addresses_are_counted():
    content = repacked(plain(), {SHEET: sheet_xml(rows_xml(3, TEXT * 2))})
    (sheet,) = read_tables(content, "car.xlsx")
    assert [[(c.row, c.column) for c in row] for row in sheet.rows] == [
        [(n, 1), (n, 2)] for n in (1, 2, 3)
    ]


@pytest.mark.parametrize("inside", [rows_xml(10_001, TEXT), rows_xml(1, TEXT * 301)])
def test_rows_without_addresses_beyond_the_table_are_refused_never_dropped(inside):
    with pytest.raises(RefusedFileError, match="beyond row 10000 or column 300") as refused:
        read_tables(repacked(plain(), {SHEET: sheet_xml(inside)}), "car.xlsx")
    assert refused.value.place in {"row ", "KO1"}


OUT_OF_ORDER = {
    "two rows of one number": "<row r='2'><c r='A2'/></row><row r='2'><c r='A2'/></row>",
    "two cells of one address": "<row r='1'><c r='B1'/><c r='B1'/></row>",
    "a cell of another row": "<row r='1'><c r='A9'/></row>",
    "backwards": "<row r='1'><c r='C1'/><c r='A1'/></row>",
    "a row without address behind the last": f"<row r='10000'>{TEXT}</row><row>{TEXT}</row>",
}


@pytest.mark.parametrize("name", OUT_OF_ORDER)
def test_no_cell_takes_the_place_of_another(name):
    content = repacked(plain(), {SHEET: sheet_xml(f"<sheetData>{OUT_OF_ORDER[name]}</sheetData>")})
    with pytest.raises(RefusedFileError):
        read_tables(content, "car.xlsx")


def test_three_thousand_joined_places_are_refused_before_the_cells_are_read():
    refs = "".join(f"<mergeCell ref='A{n}:KN{n}'/>" for n in range(1, 3001))
    inside = rows_xml(3000, TEXT * 60, addressed=True) + f"<mergeCells>{refs}</mergeCells>"
    before = time.process_time()
    with pytest.raises(RefusedFileError, match="more than 1000 places"):
        read_tables(repacked(plain(), {SHEET: sheet_xml(inside)}), "car.xlsx")
    assert time.process_time() - before < 5


def test_each_cell_is_asked_once_whether_it_is_joined():
    refs = "".join(f"<mergeCell ref='A{n}:B{n}'/>" for n in range(1, 1001))
    inside = rows_xml(1000, TEXT * 60, addressed=True) + f"<mergeCells>{refs}</mergeCells>"
    (sheet,) = read_tables(repacked(plain(), {SHEET: sheet_xml(inside)}), "car.xlsx")
    kinds = {(cell.column, cell.kind) for row in sheet.rows for cell in row}
    assert kinds == {(n, "merged" if n < 3 else "text") for n in range(1, 61)}


def test_joining_every_cell_there_can_be_takes_no_time():
    joined = "<mergeCells><mergeCell ref='A1:XFD1048576'/></mergeCells>"
    content = repacked(plain(), {SHEET: sheet_xml(CELL.format(row=1, at="A1", text="x") + joined)})
    assert read_tables(content, "car.xlsx")[0].rows[0][0].kind == "merged"


@pytest.mark.parametrize("size", [0, 3, 100, 2000])
def test_a_cut_workbook_is_refused(size):
    with pytest.raises(RefusedFileError):
        read_tables(plain()[:size], "car.xlsx")


@settings(max_examples=many(60), deadline=None)
@given(st.integers(0, 4000), st.binary(min_size=1, max_size=40))
def test_damage_is_read_or_refused_never_a_traceback(place, damage):
    content = plain()
    damaged = content[:place] + damage + content[place + len(damage) :]
    try:
        read_tables(damaged, "car.xlsx")
    except RefusedFileError as refused:
        assert refused.help


def test_what_stood_in_a_cell():
    def fill(sheet) -> None:
        sheet.append(["text", 4, 12.5, 0.1 + 0.2, True, date(2024, 2, 1), "=1+2", "#REF!", 0.5])
        sheet["I1"].number_format = "0%"
        sheet["K1"] = "joined"
        sheet.merge_cells("K1:L2")

    row = read_tables(workbook(fill), "a.xlsx")[0].rows[0]
    assert [(cell.text, cell.kind) for cell in row] == [
        ("text", "text"),
        ("4", "number"),
        ("12.5", "number"),
        ("0.3", "number"),
        ("yes", "yes_no"),
        ("2024-02-01", "date"),
        ("=1+2", "formula"),
        ("#REF!", "error"),
        ("0.5", "percent"),
        ("joined", "merged"),
    ]


def test_what_is_written_stays_text_and_offers_words():
    words = tuple(f"word-{n}" for n in range(60))  # more than fit into the rule itself
    laid = [Laid(2, 9, 1, words, as_text=True)]
    content = write_xlsx([NewSheet("pins", [["a", "b"], ["=cmd()", 4]], laid)])
    rows = read_tables(content, "a.xlsx")[0].rows
    assert [(c.text, c.kind) for c in rows[1]] == [("=cmd()", "text"), ("4", "number")]
    sheet = openpyxl.load_workbook(io.BytesIO(content))["pins"]
    (rule,) = sheet.data_validations.dataValidation
    assert rule.formula1 == "words!$A$1:$A$60" and str(rule.sqref) == "A2:A9"
    assert sheet["A5"].number_format == "@"

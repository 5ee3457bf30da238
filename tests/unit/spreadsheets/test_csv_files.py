"""Text tables: marks between columns, letters, addresses, and what is refused."""

from __future__ import annotations

import pytest

from builder.spreadsheets import RefusedFileError, address, read_tables, write_csv


def cells(content: bytes, name: str = "a.csv") -> list[list[str]]:
    return [[cell.text for cell in row] for row in read_tables(content, name)[0].rows]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
def test_every_dialect_reads_the_same(mark, encoding):
    text = f"plug{mark}wire (mm²)\r\nA{mark}0.75\r\n"
    assert cells(text.encode(encoding)) == [["plug", "wire (mm²)"], ["A", "0.75"]]


def test_decimal_commas_do_not_make_columns():
    text = "a;b;c\n12,4;12,6;12,5\n12,4;12,6;0,1\n"
    assert cells(text.encode()) == [
        ["a", "b", "c"],
        ["12,4", "12,6", "12,5"],
        ["12,4", "12,6", "0,1"],
    ]


def test_quotes_hold_marks_and_lines_and_addresses_count_rows():
    sheet = read_tables(b'a,b\n"x,y","two\nlines"\n,z\n', "a.csv")[0]
    assert [(c.text, address(c.row, c.column)) for row in sheet.rows for c in row][2:] == [
        ("x,y", "A2"),
        ("two\nlines", "B2"),
        ("z", "B3"),
    ]


@pytest.mark.parametrize(
    ("content", "name"),
    [
        (b'a,b\n"never closed,1\n', "a.csv"),
        (b"a\0b", "a.csv"),
        (b"\x81\x8d", "a.csv"),
        (b"x" * 5_000_000, "a.csv"),
        (b"," * 400 + b"x\n", "a.csv"),
        (b"a," + b"x" * 5000, "a.csv"),
        (b"\n" * 10_001 + b"a,b\n", "a.csv"),
        (b"anything", "a.xls"),
        (b"anything", "a.ods"),
        (b"anything", "a.pdf"),
        (b"anything", "noending"),
    ],
)
def test_what_is_no_table_is_refused_with_what_to_do(content, name):
    with pytest.raises(RefusedFileError) as refused:
        read_tables(content, name)
    assert str(refused.value) and refused.value.help


def test_a_formula_is_told_apart():
    kinds = [c.kind for row in read_tables(b"a,b\n=1+2,@cmd\n", "a.csv")[0].rows for c in row]
    assert kinds == ["text", "text", "formula", "formula"]


def test_what_is_written_is_read_back():
    rows = [["a", 'b "quoted"', "c;d"], ["é", "two\nlines", "-"]]
    assert cells(write_csv(rows)) == rows


@pytest.mark.parametrize(
    ("place", "name"), [((1, 1), "A1"), ((7, 3), "C7"), ((2, 27), "AA2"), ((9, 703), "AAA9")]
)
def test_addresses(place, name):
    assert address(*place) == name
    assert address(*place, "pins") == f"pins!{name}"

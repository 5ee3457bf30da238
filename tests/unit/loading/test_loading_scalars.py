"""Core scalars of YAML 1.2, and the one deviation from them."""

from __future__ import annotations

from each_case import each

TEXT = (
    "no No NO on On off yes y n 12:30 "
    "1_000 2024-05-13 2016-03 1:2:3 0b11 0o8 0xG 1e 1e+ . "
    "+ .e3 1.2.3 1,5 tRUE nULL 4a a4 -.inf.nan inf "
    "nan NaN .Nan +.nan -0x1F +0o7 ４ ٣ 1_0.5 007 "
    "-007 +01 00 01.5 00.5 0012e3 2001-12-14t21:59:43.10-05:00 = __import__ "
)
NUMBERS = [
    ("0", 0),
    ("-0", 0),
    ("+12", 12),
    ("-12", -12),
    ("0o17", 15),
    ("0o007", 7),
    ("0x1F", 31),
    ("0x001f", 31),
    ("9007199254740991", 2**53 - 1),
    ("0.5", 0.5),
    (".5", 0.5),
    ("-.5", -0.5),
    ("4.", 4.0),
    ("1e3", 1000.0),
    ("12E-1", 1.2),
    ("0e3", 0.0),
    ("0e-999", 0.0),
    ("-0.0", -0.0),
]
WORDS = [("", None), ("~", None), ("null", None), ("Null", None), ("NULL", None)]
WORDS += [("true", True), ("True", True), ("TRUE", True)]
WORDS += [("false", False), ("False", False), ("FALSE", False)]


@each("written", TEXT.split())
def test_stays_text(load, written):
    loaded = load(f"a: {written}\n")
    assert (loaded.data, loaded.findings) == ({"a": written}, [])


@each("written, value", NUMBERS + WORDS)
def test_becomes_a_value_of_the_right_type(load, written, value):
    loaded = load(f"a: {written}\nb: '{written}'\n")
    assert loaded.findings == []
    assert repr(loaded.data["a"]) == repr(value)
    assert loaded.data["b"] == written


@each(
    "written",
    [".inf", "-.Inf", "+.INF", ".nan", ".NaN", ".NAN", "1e400", "-1e999", "9" * 400 + "."],
)
def test_no_number_is_without_end(load, written):
    (finding,) = load(f"a:\n  - {written}\n").findings
    assert (finding.rule_id, finding.line, finding.column) == ("YML120", 2, 5)
    assert written[:50] in finding.message


@each("written", ["9007199254740992", "-9007199254740992", "9" * 5000, "0x" + "f" * 20])
def test_no_number_loses_digits(load, written):
    (finding,) = load(f"a: {written}\n").findings
    assert (finding.rule_id, finding.line, finding.column) == ("YML121", 1, 4)
    assert written[:50] in finding.message


@each("written", ["1e-400", "5e-324", "-0.9e-12", "0.00000000000001"])
def test_no_number_is_next_to_nothing(load, written):
    (finding,) = load(f"a: {written}\n").findings
    assert (finding.rule_id, finding.line, finding.column) == ("YML121", 1, 4)
    assert written in finding.message and "type 0" in finding.help


def test_a_millionth_of_a_millionth_is_still_a_number(load):
    assert load("a: 1e-12\nb: 0e-400\n").data == {"a": 1e-12, "b": 0.0}


def test_keys_are_read_as_values_are(load):
    assert load("no: 1\n007: 2\n2024-05-13: 3\n").data == {"no": 1, "007": 2, "2024-05-13": 3}

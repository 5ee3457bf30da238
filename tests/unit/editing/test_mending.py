"""Fixes in the text: slips of one key are mended without any harm to the rest."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import many
from shipped_book import PINOUTS
from shipped_cars import car_path, typed_text

from builder.book import RecordFile
from builder.editing import UneditableError
from builder.editing.mending import expand_tabs, mend
from builder.findings import Finding, Fix, Severity
from builder.loading import load_text
from builder.pipeline.changing.mending import MendedFile, mend_shape, text_findings
from builder.schema_check.meant import colours_meant, date_meant, figure_meant
from builder.speller import surely

TANSY = car_path(PINOUTS, "ostrel-tansy-2017-hatch-base")
SHIPPED = typed_text(TANSY.stem)
FILE = RecordFile("vehicle", TANSY, "record.yaml")


def unread(text: str) -> int:
    return sum(finding.rule_id.startswith("YML") for finding in text_findings(FILE, text))


def mended(text: str) -> MendedFile:
    each = MendedFile(FILE, text, text)
    mend_shape(each)
    return each


@settings(max_examples=many(120), deadline=None)
@given(
    at=st.integers(0, len(SHIPPED) - 3),
    cut=st.integers(0, 2),
    typed=st.text(" \t:,-[]{}\"'#.xyzV019/", max_size=2),
)
def test_a_slip_of_the_hand_is_mended_or_left_alone(at, cut, typed):
    slipped = SHIPPED[:at] + typed + SHIPPED[at + cut :]
    each = mended(slipped)
    assert unread(each.new) <= unread(slipped)
    if not each.made:
        assert each.new == slipped
    again = mended(each.new)
    assert again.new == each.new and not again.made
    if each.made and not any("twice" in line for line in each.made):
        digits = [sum(map(str.isdigit, text)) for text in (slipped, each.new)]
        slip = sum(map(str.isdigit, typed))  # may go with the misspelt word it fell into
        assert digits[1] >= digits[0] - max(1, slip)  # nothing measured is lost on the way


def a_finding(fix: Fix | None, line: int = 1, column: int = 1, rule: str = "SCH103") -> Finding:
    return Finding("f", line, column, Severity.STOP, rule, "slug", "message", path=(), fix=fix)


@pytest.mark.parametrize(
    "finding",
    [
        a_finding(None),
        a_finding(Fix("write", ("gone",), "x")),
        a_finding(Fix("write", ("a",), "x", written="other")),
        a_finding(Fix("quote", ("q",))),
        a_finding(Fix("retype", text="1.2", written="2", before="1,"), 1, 1),
        a_finding(None, rule="YML115"),
        a_finding(None, 2, 1, rule="YML115"),
    ],
)
def test_a_fix_for_another_text_is_not_made(finding):
    with pytest.raises(UneditableError):
        mend('a: 1\nq: "2"\n', "vehicle", finding)


def test_places_count_from_behind_the_byte_order_mark_and_over_every_line_end():
    for end in ("\n", "\r\n", "\r"):
        text = f"\ufeffa: x{end}v: 12,5{end}"
        fix = Fix("retype", text="12.5", written="5", before="12,")
        new = mend(text, "vehicle", a_finding(fix, 2, 7))
        assert new == f"\ufeffa: x{end}v: 12.5{end}"
    marked = mend("\ufeffa: 1\n", "vehicle", a_finding(Fix("retype", text="b", written="a")))
    assert marked == "\ufeffb: 1\n"


def test_tabs_are_expanded_only_when_their_width_does_not_matter():
    assert load_text(expand_tabs("a:\n\tb: 1\n\tc:\n\t\td: 2\n"), "x").data == {
        "a": {"b": 1, "c": {"d": 2}}
    }
    with pytest.raises(UneditableError):  # at two spaces c is beside a's b, at four inside it
        expand_tabs("a:\n  b:\n\t- 1\n    - 2\n")
    with pytest.raises(UneditableError):
        expand_tabs("a: [\n\tb\n")


@pytest.mark.parametrize(
    ("written", "unit", "text", "sure"),
    [
        ("12.4 V", "V", "12.4", True),
        ("12,4", "V", "12.4", True),
        ("12.40V", "V", "12.40", True),
        ("12400 mV", "V", "12.4", True),
        ("0,125", "A", "0.125", True),
        ("1,125", "A", "1.125", False),
        ("4k7", "Ω", None, False),
        ("4.7 kohm", "Ω", "4700", True),
        ("4.7 kΩ", "Ω", "4700", True),
        ("250 mA", "mA", "250", True),
        ("0.25 A", "mA", "250", True),
        ("5 W", "V", "5", False),
        ("5 V", "", "5", False),
        ("-0.5", "V", "-0.5", True),
        ("−0.5 V", "V", "-0.5", True),
        ("007", "V", "007", False),
        ("12.3.", "V", None, False),
        ("35 s.", "s", "35", True),
        ("2 min", "s", "2", False),
        ("30 cm", "m", "0.3", True),
        ("75 %", "%", "75", True),
        ("twelve", "V", None, False),
    ],
)
def test_figures(written, unit, text, sure):
    meant = figure_meant(written, unit)
    assert (meant.text if meant else None) == text
    assert bool(meant and meant.sure) == sure


@pytest.mark.parametrize(
    ("written", "month", "text", "sure"),
    [
        ("13.5.2024", False, "2024-05-13", True),
        ("3.5.2024", False, "2024-05-03", True),
        ("3/5/2024", False, "2024-05-03", False),
        ("5/13/2024", False, "2024-05-13", True),
        ("13/5/2024", False, "2024-05-13", True),
        ("5/5/2024", False, "2024-05-05", True),
        ("2024/5/13", False, "2024-05-13", True),
        ("2024-5-3", False, "2024-05-03", True),
        ("2024-13-13", False, None, False),
        ("03/2017", True, "2017-03", True),
        ("2017/3", True, "2017-03", True),
        ("2017-03-04", True, None, False),
        ("2017-03", False, None, False),
        ("May 2024", True, None, False),
    ],
)
def test_dates(written, month, text, sure):
    meant = date_meant(written, month=month)
    assert (meant.text if meant else None) == text
    assert bool(meant and meant.sure) == sure


def test_colours_and_words():
    legal = ["red", "grey", "light blue", "yellow"]
    assert colours_meant("Yellow/Red", legal) == ("yellow", "red")
    assert colours_meant("light blue with gray stripe", legal) == ("light blue", "grey")
    assert colours_meant("gr/red", legal) is None
    assert colours_meant("light blue with gray", legal) == ("light blue", "grey")
    assert colours_meant("mauve/red", legal) is None
    states = ["lights_on", "lights_off", "run", "crank"]
    assert surely("lights_of", states) is None  # one letter from lights_on as well
    assert surely("crnak", states) == "crank"
    assert surely("Lights On", states) == "lights_on"
    assert surely("switched", ["accessory", "run"]) is None
    assert surely("earth", ["ground", "run"]) == "ground"

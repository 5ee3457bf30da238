"""A visit that counted from the other face: whoever shows a dispute has tried that first."""

from __future__ import annotations

import json
import re

import pytest
from evidence_book import TANSY, sheet_file, small_book
from shipped_book import loombook

FACE = "counted from the other face, or upside down"
SEEN = "when one is seen from the other face"
VOLTS = "quantity: dc_v, value: {}, battery_v: 12.6}}"
# In the record 10 is constant, 7 retained, 1 and 11 legs of a bridge: each taken for its image.
MIRRORED = (
    "{plug: A, cavity: 1, state: asleep, minutes: 65, " + VOLTS.format(12.6),
    "{plug: A, cavity: 4, state: retained, " + VOLTS.format(12.4),
    "{plug: A, cavity: 4, state: asleep, minutes: 65, " + VOLTS.format(0.03),
    "{plug: A, cavity: 10, state: radio_on_zero, " + VOLTS.format(6.4),
    "{plug: A, cavity: 20, state: radio_on_zero, " + VOLTS.format(6.42),
)


@pytest.fixture
def told(tmp_path):
    book = small_book(tmp_path / "book")
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {TANSY}", *MIRRORED)
    said = loombook("evidence", "add", sheet, "--book", book, "--format", "json")
    return book, json.loads(said.output)


def test_adding_the_sheet_names_the_other_face_before_what_decides(told):
    disputed = [one for one in told[1]["conflicts"] if one["disputed"]]
    assert {"A.1", "A.10"} <= {one["place"] for one in disputed}
    for one in disputed:
        assert one["first"].startswith(f"{FACE}? third-bay: 1 of 4 ")
        assert SEEN in one["first"]


@pytest.mark.parametrize(
    "command",
    [("show", TANSY), ("why", TANSY, "A.10")],
    ids=["show", "why"],
)
def test_a_dispute_that_is_shown_tells_the_other_face_first(told, command):
    said = " ".join(loombook(*command, "--book", told[0]).output.split())
    assert "Tried in this order: 1 ✓ Counted from the other face, or upside down: fits" in said
    assert SEEN in said
    assert "the shell of this plug is not in the book" not in said


def test_the_check_says_it_in_every_dispute(told):
    said = loombook("check", told[0]).output.splitlines()
    helps = [said[at + 1] for at, line in enumerate(said) if " EVD104 A." in line]
    assert len(helps) >= 2
    assert all(line.startswith(f"  help: {FACE}? third-bay") for line in helps), helps


def test_the_check_names_the_visit_itself(told):
    said = loombook("check", told[0]).output.splitlines()
    (at,) = [n for n, line in enumerate(said) if " PIN123 " in line]
    assert 'plug "A" was counted from another face in this visit: third-bay' in said[at]
    assert re.fullmatch(
        "  help: before anything else about these readings, find two wires by colour in the "
        "drawings; then: loombook visit turn third-bay-2025-11-02-zz1-[0-9a-f]{6} --plug A",
        said[at + 1],
    )

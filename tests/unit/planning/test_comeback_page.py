"""The page of a car that came back, read as a person does: from row to row, by what is read."""

from __future__ import annotations

import html
import re
from typing import NamedTuple

import pytest
from comeback_jobs import causes_in

from builder.planning.comeback.ask import Comeback
from builder.planning.comeback.condition import Condition
from builder.planning.comeback.reading_made import Reading
from builder.rendering.comeback_text import at_words
from builder.rendering.page import BuildInfo
from builder.rendering.pages.bay_lines import state_words
from builder.rendering.pages.comeback import comeback_page

INFO = BuildInfo("loombook", "0.1.0", "2026-11-29")
COLUMNS = {"in": "In order, or yes", "low": "Low, or no", "high": "High"}


class Row(NamedTuple):
    """A row of a table: its cells by the title of their column, links as they lead."""

    cells: dict[str, str]
    links: dict[str, str]


def rows_of(page: str) -> dict[str, Row]:
    """The rows of all tables by their anchors."""
    found = {}
    for anchor, inner in re.findall(r'<tr id="([^"]+)">(.*?)</tr>', page, re.DOTALL):
        cells = dict(re.findall(r'<td data-label="([^"]+)">(.*?)</td>', inner, re.DOTALL))
        links = {
            name: match[1] for name, cell in cells.items()
            if (match := re.search(r'href="#([^"]+)"', cell))
        }  # fmt: skip
        plain = {
            name: html.unescape(re.sub(r"<[^>]+>", " ", cell.replace("<br>", "\n")))
            for name, cell in cells.items()
        }
        found[anchor] = Row(plain, links)
    return found


def led_to(rows: dict[str, Row], back: Comeback, symptom: str, now: Condition) -> Row:
    """The end that a person comes to who reads what each row says."""
    said: dict[tuple[str, str], Reading] = {
        (each.test.what + at_words(each), state_words(each.test.state)): each
        for each in back.readings
    }
    anchor = f"{symptom}-read-1" if f"{symptom}-read-1" in rows else f"{symptom}-do-1"
    while "-read-" in anchor:
        row = rows[anchor]
        reading = said[row.cells["What"], row.cells["Car"]]
        anchor = row.links[COLUMNS[reading.look(now)]]
    return rows[anchor]


@pytest.mark.parametrize("name", ["tansy-subwoofer", "sedge-fronts"])
def test_whoever_follows_the_rows_comes_to_the_fault(name: str) -> None:
    back = Comeback(causes_in(name))
    rows = rows_of(comeback_page(back, INFO, "").body_html)
    for symptom, faults in back.by_symptom.items():
        for fault in faults:
            end = led_to(rows, back, symptom, Condition(back.job.healthy, fault))
            assert fault.what in end.cells["What it may be"], (symptom, fault.id)
            assert end.cells["What to do"] == fault.remedy


def test_every_row_is_led_to_by_one_other_and_what_no_fault_makes_is_said() -> None:
    back = Comeback(causes_in("sedge-fronts"))
    page = comeback_page(back, INFO, "").body_html
    rows = rows_of(page)
    leads = [anchor for row in rows.values() for anchor in row.links.values()]
    firsts = {anchor for anchor in rows if anchor.endswith("-read-1")}
    assert sorted(leads) == sorted(set(leads)) and set(leads) | firsts >= set(rows)
    assert "No single fault of this job makes it so: nothing that was added plays by day" in page

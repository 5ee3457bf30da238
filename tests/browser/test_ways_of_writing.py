"""The pages' scripts read the three hundred ways of writing as the builder does."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from shipped_book import ROOT

from builder.model.said.pin_words import pin_words
from builder.model.said.wires import colours_said

pytestmark = pytest.mark.browser

ROWS = yaml.safe_load((ROOT / "tests" / "ways_of_writing.yaml").read_text("utf-8"))
WAYS = [(row, written) for row in ROWS for written in row["ways"]]
LINES = [
    *(written for _, written in WAYS),
    *(f"fl+ {written}" for row, written in WAYS if row["kind"] in ("colour", "wire")),
    *(f"{written} yel/bl 0,75" for row, written in WAYS if row["kind"] == "function"),
    *("", " ", "///", "--", "constructor", "__proto__ red", "wht/blk/red", "İ ß ﬀ", "fl+ + -"),
]


@pytest.fixture(scope="module")
def maker(chromium: Any, address: str) -> Any:
    chromium.open(f"{address}/record-maker.html")
    return chromium


def test_a_line_about_a_pin_is_taken_apart_as_by_the_builder(maker: Any) -> None:
    found = maker.run(
        "return arguments[0].map(line => { const found = window.loombookSaidWords.pinWords(line);"
        " return [found.phrases.map(one => [one.kind, one.written, one.meant.means,"
        " one.meant.openEnd]), found.left]; })",
        LINES,
    )
    for line, (phrases, left) in zip(LINES, found, strict=True):
        mine = pin_words(line)
        told = [[p.kind, p.written, list(p.meant.means), p.meant.open_end] for p in mine.phrases]
        assert (phrases, left) == (told, mine.left), line


def test_colours_are_read_as_by_the_builder(maker: Any) -> None:
    found = maker.run(
        "return arguments[0].map(line => window.loombookSaidWords.coloursSaid(line).map(one =>"
        " [one.written, one.meant.means, one.meant.openEnd]))",
        LINES,
    )
    for line, colours in zip(LINES, found, strict=True):
        mine = [[c.written, list(c.meant.means), c.meant.open_end] for c in colours_said(line)]
        assert colours == mine, line


def of_kind(kind: str) -> list[tuple[Any, str]]:
    return [(row, written) for row, written in WAYS if row["kind"] == kind]


READ = """return arguments[0].map(line => {
  try { const r = window.loombookReading.readReading(line); return [r.state, r.value, r.quantity]; }
  catch (slip) { return [slip.message]; }
})"""


def test_a_line_of_a_reading_knows_the_state_or_asks_back(maker: Any) -> None:
    ways = of_kind("state")
    lines = [
        f"{written} {'3.9 ohm' if row.get('means') == 'unplugged' else '12.4 V'} minutes 65"
        for row, written in ways
    ]
    for (row, written), found in zip(ways, maker.run(READ, lines), strict=True):
        if "asks" in row:
            assert all(each in found[0] for each in row["asks"]), written
        else:
            assert found[0] == row["means"], written


def test_a_line_of_a_reading_knows_the_figure_and_its_unit(maker: Any) -> None:
    ways = of_kind("figure")
    lines = [f"unplugged {written}" for _, written in ways]
    for (row, written), found in zip(ways, maker.run(READ, lines), strict=True):
        value, quantity = row["means"].split()
        assert found[2] == quantity, written
        assert found[1] == ("open" if value == "open" else pytest.approx(float(value))), written


def test_a_bay_sheet_takes_a_figure_without_its_unit_in_each_way(chromium: Any, site: Any) -> None:
    page = site / "jobs" / "tansy-subwoofer.html"
    chromium.open(f"{page.as_uri()}")
    ways = ["12.4", "12,4", "-0.03", "−0,03", "–0.03", "+12.4", ".5", "open", "OL", "O.L", "∞"]
    found = chromium.run(
        "const ask = {quantity: 'ohm', unit: 'Ω', low: null, high: null};"
        "return arguments[0].map(way => { const found = window.loombookBay.read(way, ask);"
        " return found.value ?? found.kind; })",
        ways,
    )
    assert found == [12.4, 12.4, -0.03, -0.03, -0.03, 12.4, 0.5, "open", "open", "open", "open"]

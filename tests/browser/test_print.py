"""What comes out of the printer, on A4 and on Letter: nothing cut off, nothing twice."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import zxingcpp
from chromium import CHROMIUM, Browser
from evidence_book import JOB, TANSY, small_book
from printing import (
    PAPER_IN,
    TO_PICTURE,
    TO_TEXT,
    Printed,
    grey_picture,
    print_page,
    spilling_boxes,
    words_on_paper,
)
from shipped_book import loombook

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
    pytest.mark.skipif(TO_TEXT is None, reason="pdftotext is not installed"),
]
JOBS = ("leto-four-doors", "rook-two-amplifiers", "ullin-split-fronts")
FOUR_PAIRS = "plans/brantmoor-leto-2019-wagon-mid--cvn-4a"
PROBE_PLAN = "plans/veldane-ullin-2021-premium--cvn-6s"
VEHICLE = "vehicles/brantmoor-leto-2019-wagon-mid"
LOOMED = ("jobs/sorrel-five-channels", "jobs/sedge-fronts")
ALL = (*(f"jobs/{job}" for job in JOBS), *LOOMED, FOUR_PAIRS, PROBE_PLAN, VEHICLE, "health")
MOST_PAGES = {
    FOUR_PAIRS: {"A4": 4, "Letter": 5},
    PROBE_PLAN: {"A4": 4, "Letter": 5},
    VEHICLE: {"A4": 6, "Letter": 6},
    "health": {"A4": 3, "Letter": 3},
    # One more than before the circuit: the wiring picture has a page of its own. Two more since the
    # way back takes devices out and reads the car, and since the steps set, pass, seal and hold.
    "jobs/tansy-subwoofer": {"A4": 20, "Letter": 20},
}
FOOT = re.compile(
    r"(?:sum [0-9a-f]{8} · invented · )?loombook \S+, data of \d{4}-\d\d-\d\d"
    r"\s+(?:sheet ([A-M]) · )?page (\d+) of (\d+)\s*$"
)
ADDRESS = "https://pins.example/book/"


# What the page in the browser is asked before it is printed.
_ASK = """
const all = (what) => [...document.querySelectorAll(what)];
return {
  heads: all("#content :is(h1, h2, h3, h4, .bay caption)")
    .map(one => one.textContent.trim().replace(/\\s+/g, " ")),
  titles: all(".sheet h2[id$=-title]").filter(one => one.querySelector(".letter"))
    .map(one => one.textContent),
  letters: all("#tests .letter").map(one => one.textContent),
  tests: all("#tests .test").length,
  way_back: all(".way-back").some(one => one.checkVisibility()),
};
"""


class OnPaper(NamedTuple):
    """What a page of the site holds, and what the printer made of it."""

    printed: Printed
    shown: list[str]
    held: dict[str, Any]

    def feet(self) -> list[str]:
        """The letter of the sheet that each page of paper belongs to."""
        return [found[1] for text in self.printed.pages if (found := FOOT.search(text))]


Press = Callable[[str, str], OnPaper]


@pytest.fixture(scope="module")
def press(chromium: Browser, address: str, tmp_path_factory: pytest.TempPathFactory) -> Press:
    """Prints a page on a paper, once for all that is asked of it."""

    @cache
    def on_paper(page: str, paper: str) -> OnPaper:
        chromium.resize(1280)
        chromium.open(f"{address}/{page}.html")
        held, shown = chromium.run(_ASK), words_on_paper(chromium)
        assert isinstance(held, dict)
        file = tmp_path_factory.mktemp("paper") / "p.pdf"
        return OnPaper(print_page(chromium, paper, file), shown, held)

    return on_paper


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_every_page_ends_with_its_foot(press: Press, page: str, paper: str) -> None:
    pages = press(page, paper).printed.pages
    for at, text in enumerate(pages, 1):
        foot = FOOT.search(text)
        assert foot, text[-300:]
        assert (int(foot[2]), int(foot[3])) == (at, len(pages))
        assert (foot[1] is not None) == page.startswith("jobs/")
        if page != "health":
            assert "sum " in foot[0]


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_no_word_of_a_cell_a_line_or_a_drawing_is_lost_on_paper(
    press: Press, page: str, paper: str
) -> None:
    found = press(page, paper)
    assert len(found.shown) > 40
    assert [words for words in found.shown if words not in found.printed.running] == []


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", MOST_PAGES)
def test_a_page_takes_no_more_paper_than_it_must(press: Press, page: str, paper: str) -> None:
    found = press(page, paper)
    assert len(found.printed.pages) <= MOST_PAGES[page][paper], Counter(found.feet())


@pytest.mark.parametrize("page", [FOUR_PAIRS, f"jobs/{JOBS[0]}"])
def test_the_turn_on_ladder_stands_on_paper_once(press: Press, page: str) -> None:
    running = press(page, "A4").printed.running
    for rung in ("nointerfaceonthisshelffits", "thelastresort:onlate"):
        assert running.count(rung) == 1


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("job", JOBS)
def test_every_sheet_of_a_pack_begins_a_page(press: Press, job: str, paper: str) -> None:
    found = press(f"jobs/{job}", paper)
    titles, order = found.held["titles"], found.feet()
    assert len(titles) >= 4
    seen = list(dict.fromkeys(order))
    assert order == sorted(order, key=seen.index)  # the pages of a sheet lie together
    assert [title[0] for title in titles] == seen[-len(titles) :]
    for title in titles:
        letter, words = title[0], title[1:].split()
        first = found.printed.pages[order.index(letter)].split()
        assert first[: len(words) + 1] == [letter, *words]


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_no_page_is_empty_and_none_ends_in_a_heading(press: Press, page: str, paper: str) -> None:
    found = press(page, paper)
    assert found.held["heads"]
    for text in found.printed.pages:
        lines = [" ".join(line.split()) for line in text.splitlines() if line.strip()]
        assert len(lines) > 1, text
        if "sheet A ·" not in lines[-1]:  # the cover ends in the list of the sheets
            assert lines[-2] not in found.held["heads"]


BENCH_TABLES = {
    r"Cut\s+Tip\s+Core": r" {3,}(?:(?:before|after): \d|wrap of\b)",
    "Must read": r"\b(?:at (?:most|least)|[\d.]+ to) [\d.]+ "
    r"(?:mV at \d|M?Ω(?=\s{2}|\s*\n| \(cable))",
}
"""What stands in the head of a long table of a bench sheet, and in each of its rows alone."""


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", LOOMED)
def test_a_table_of_a_bench_sheet_has_its_head_on_each_page_and_no_row_alone(
    press: Press, page: str, paper: str
) -> None:
    found = press(page, paper)
    sheets = zip(found.feet(), found.printed.pages, strict=True)
    pages = [text for letter, text in sheets if letter == "L"]
    assert 5 <= len(pages) <= (6 if "sorrel" in page else 7)
    for head, row in BENCH_TABLES.items():
        counts = [(len(re.findall(row, text)), bool(re.search(head, text))) for text in pages]
        assert sum(count for count, _ in counts) >= 8
        assert all(has and count >= 2 for count, has in counts if count), f"{head}: {counts}"


@pytest.mark.parametrize("paper", PAPER_IN)
def test_a_bay_sheet_of_forty_lines_takes_two_pages(press: Press, paper: str) -> None:
    found = press("jobs/tansy-subwoofer", paper)
    assert found.held["tests"] in range(35, 55)
    (letter,) = found.held["letters"]
    assert found.feet().count(letter) <= 2


@pytest.mark.parametrize("page", ["jobs/tansy-subwoofer", *(f"jobs/{job}" for job in JOBS)])
def test_every_box_has_room_to_write_in(chromium: Browser, address: str, page: str) -> None:
    chromium.resize(1280)
    chromium.open(f"{address}/{page}.html")
    assert spilling_boxes(chromium) == []


def test_without_an_address_paper_says_that_there_is_no_code(press: Press) -> None:
    found = press(VEHICLE, "A4")
    assert found.held["way_back"] is False
    assert "Nocodeleadsbacktothispage" in found.printed.running


@pytest.fixture(scope="module")
def addressed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a small book, built for a place of its own."""
    folder = tmp_path_factory.mktemp("addressed")
    book = small_book(folder / "book")
    done = loombook("build", book, "--output", folder / "site", "--site-address", ADDRESS)
    assert done.exit_code == 0, done.output
    return folder / "site"


@pytest.mark.skipif(TO_PICTURE is None, reason="pdftoppm is not installed")
@pytest.mark.parametrize(
    ("page", "paper"),
    [(f"jobs/{JOB}", "A4"), (f"plans/{TANSY}--cvn-2a", "Letter"), (f"vehicles/{TANSY}", "A4")],
)
def test_the_code_on_a_grey_print_leads_back_to_the_page(
    browser: Browser, addressed: Path, tmp_path: Path, page: str, paper: str
) -> None:
    browser.open((addressed / f"{page}.html").as_uri())
    printed = print_page(browser, paper, tmp_path / "p.pdf")
    picture, _, _ = grey_picture(printed.file)
    assert [code.text for code in zxingcpp.read_barcodes(picture)] == [f"{ADDRESS}{page}.html"]
    assert f"{ADDRESS}{page}.html" in printed.running

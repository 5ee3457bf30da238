"""What comes out of the printer, on A4 and on Letter: nothing cut off, nothing twice."""

from __future__ import annotations

import re
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
    TO_FONTS,
    TO_PICTURE,
    TO_TEXT,
    Printed,
    body_sizes,
    grey_picture,
    print_page,
    smallest_type,
    spilling_boxes,
    text_of,
    words_off_paper,
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
PACKS = (*(f"jobs/{job}" for job in JOBS), *LOOMED, "jobs/tansy-subwoofer", "jobs/tansy-two-coils")
ALL = (*(f"jobs/{job}" for job in JOBS), *LOOMED, FOUR_PAIRS, PROBE_PLAN, VEHICLE, "health")
MOST_PAGES = {
    FOUR_PAIRS: {"A4": 4, "Letter": 5},
    PROBE_PLAN: {"A4": 4, "Letter": 5},
    VEHICLE: {"A4": 6, "Letter": 6},
    "health": {"A4": 3, "Letter": 3},
    "jobs/tansy-subwoofer": {"A4": 9, "Letter": 10},
    "jobs/tansy-two-coils": {"A4": 10, "Letter": 10},
    "jobs/rook-two-amplifiers": {"A4": 12, "Letter": 14},
    "jobs/sorrel-five-channels": {"A4": 18, "Letter": 18},
    "jobs/sedge-fronts": {"A4": 18, "Letter": 19},
    "jobs/leto-four-doors": {"A4": 11, "Letter": 12},
}
FOOT = re.compile(
    r"(?:sum [0-9a-f]{8} · invented · )?loombook \S+, data of \d{4}-\d\d-\d\d"
    r"\s+page (\d+) of (\d+)\s*$"
)
ADDRESS = "https://pins.example/book/"


# What the page in the browser is asked before it is printed.
_ASK = """
const all = (what) => [...document.querySelectorAll(what)];
return {
  heads: all("#content :is(h1, h2, h3, h4, .bay caption)").filter(one => !one.closest(".on-screen"))
    .map(one => one.textContent.trim().replace(/\\s+/g, " ")),
  titles: all(".sheet:not(.own-print) h2[id$=-title]").filter(one => one.querySelector(".letter"))
    .map(one => one.textContent),
  of: document.querySelector(".sheet-of")?.textContent ?? "",
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
    body: list[tuple[float, str]]

    def sheets(self) -> list[str]:
        """The letters of the sheets on each page of paper, by their heads: "AB" for two of them.

        Sheets that share columns have one head for all of them.
        """
        of = " ".join(self.held["of"].split()[:3])
        heads = {title[0]: f"{title[0]} {title[1:].strip()}" for title in self.held["titles"]}
        pages = [
            "".join(
                letter
                for line in text.splitlines()
                for letter, head in heads.items()
                if head in " ".join(line.split()).partition(of)[0] and of in " ".join(line.split())
            )
            for text in self.printed.pages
        ]
        return [f"A{pages[0]}", *pages[1:]]


Press = Callable[[str, str], OnPaper]


@pytest.fixture(scope="module")
def press(chromium: Browser, address: str, tmp_path_factory: pytest.TempPathFactory) -> Press:
    """Prints a page on a paper, once for all that is asked of it."""

    @cache
    def on_paper(page: str, paper: str) -> OnPaper:
        chromium.resize(1280)
        chromium.open("about:blank")
        chromium.open(f"{address}/{page}" if ".html#" in page else f"{address}/{page}.html")
        held, shown, body = chromium.run(_ASK), words_on_paper(chromium), body_sizes(chromium)
        assert isinstance(held, dict)
        file = tmp_path_factory.mktemp("paper") / "p.pdf"
        return OnPaper(print_page(chromium, paper, file), shown, held, body)

    return on_paper


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_every_page_ends_with_its_foot(press: Press, page: str, paper: str) -> None:
    pages = press(page, paper).printed.pages
    for at, text in enumerate(pages, 1):
        foot = FOOT.search(text)
        assert foot, text[-300:]
        assert (int(foot[1]), int(foot[2])) == (at, len(pages))
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
    assert len(found.printed.pages) <= MOST_PAGES[page][paper], found.sheets()


@pytest.mark.parametrize("page", [FOUR_PAIRS, f"jobs/{JOBS[0]}.html#because"])
def test_the_turn_on_ladder_stands_on_paper_once(press: Press, page: str) -> None:
    running = press(page, "A4").printed.running
    for rung in ("nointerfaceonthisshelffits", "thelastresort:onlate"):
        assert running.count(rung) == 1


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("job", [*JOBS, "tansy-subwoofer", "sorrel-five-channels"])
def test_each_page_of_a_pack_begins_with_the_head_of_its_sheet(
    press: Press, job: str, paper: str
) -> None:
    """A loose page finds home: the head of a sheet stands again on each page that it goes on to."""
    found = press(f"jobs/{job}", paper)
    titles, sheets = found.held["titles"], found.sheets()
    assert len(titles) >= 4
    assert list(dict.fromkeys("".join(sheets))) == ["A", *(title[0] for title in titles)]
    for text, letters in zip(found.printed.pages[1:], sheets[1:], strict=True):
        assert letters and text.split()[0] == letters[0]


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("job", ["cutter-fronts", "rook-second-battery", "teasel-four-doors"])
def test_what_a_head_or_a_legend_belongs_to_stands_on_its_page(
    press: Press, job: str, paper: str
) -> None:
    """A legend with its drawing, a head with what is under it, cautions told elsewhere unparted."""
    raw = press(f"jobs/{job}", paper).printed
    pages = text_of(raw.file, "-raw").split("\f")[:-1]
    (drawn,) = [page for page in pages if "cavity to use" in page]
    assert "the car's own strap" in drawn
    for page in pages:
        for said in page.split("Whole on sheet A: ")[1:]:
            assert re.match(r"[^.]*\.\n(?!job )", said), said[:200]
        for below in page.split("\nTerminals\n")[1:]:
            assert below.splitlines()[1].startswith("Converter Pin"), below[:200]


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("job", ["tansy-subwoofer", "rook-two-amplifiers", "leto-four-doors"])
def test_what_leaves_the_shop_shares_no_page(press: Press, job: str, paper: str) -> None:
    sheets = press(f"jobs/{job}", paper).sheets()
    assert any("H" in letters for letters in sheets) and any("I" in letters for letters in sheets)
    assert [letters for letters in sheets if set(letters) & set("HI") and len(letters) > 1] == []


@pytest.mark.parametrize(
    ("at", "says"), [("because", "Why it is planned like this"), ("labels", "Labels to cut out")]
)
def test_what_nobody_works_by_is_printed_from_its_own_address_alone(
    press: Press, at: str, says: str
) -> None:
    """The pack leaves it out; its own address prints it, and nothing of another sheet."""
    pack = press("jobs/tansy-subwoofer", "A4").printed
    alone = press(f"jobs/tansy-subwoofer.html#{at}", "A4").printed
    squeezed = re.sub(r"\s+", "", says)
    assert squeezed in alone.running and len(alone.pages) <= 2
    assert "Stepsinorder" not in alone.running and "Setandnote" not in alone.running
    assert f"{squeezed}addasub" not in pack.running and "Setandnote" in pack.running
    assert "Labelstocutout" not in pack.running


@pytest.mark.skipif(TO_FONTS is None, reason="pdftohtml is not installed")
@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", PACKS)
def test_no_type_is_too_small_and_no_word_too_near_the_edge(
    press: Press, page: str, paper: str
) -> None:
    """Six points, the smallest of them in drawings; printers leave 5 mm of an edge white."""
    found = press(page, paper)
    least, words = smallest_type(found.printed.file)
    assert least >= 6, words
    assert words_off_paper(found.printed.file, 5) == []
    assert found.body and min(found.body)[0] >= 9, min(found.body)


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_no_page_is_empty_and_none_ends_in_a_heading(press: Press, page: str, paper: str) -> None:
    found = press(page, paper)
    assert found.held["heads"]
    for text in found.printed.pages:
        lines = [" ".join(line.split()) for line in text.splitlines() if line.strip()]
        assert len(lines) > 1, text
        assert lines[-2] not in found.held["heads"]


BENCH_TABLES = {
    r"Cut\s+Tip\s+Core": r" {2,}(?:(?:before|after): \d|wrap of\b)",
    "Must read": r"(?:mV, 1 A flows|\bohms) +(?:open\b|at (?:most|least)\b|[\d.]+ to\b)",
}
"""What stands in the head of a long table of a bench sheet, and in each of its rows alone."""


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", LOOMED)
def test_a_table_of_a_bench_sheet_has_its_head_on_each_page_and_no_row_alone(
    press: Press, page: str, paper: str
) -> None:
    found = press(page, paper)
    sheets = zip(found.sheets(), found.printed.pages, strict=True)
    pages = [text for letters, text in sheets if "L" in letters]
    assert len(pages) >= 5
    for head, row in BENCH_TABLES.items():
        counts = [(len(re.findall(row, text)), bool(re.search(head, text))) for text in pages]
        assert sum(count for count, _ in counts) >= 8
        assert all(has and count >= 2 for count, has in counts if count), f"{head}: {counts}"


@pytest.mark.parametrize("paper", PAPER_IN)
def test_a_bay_sheet_of_forty_lines_takes_two_pages(press: Press, paper: str) -> None:
    """It begins where the sheet before it ends."""
    found = press("jobs/tansy-subwoofer", paper)
    assert found.held["tests"] in range(35, 55)
    begins, ends = (
        [at for at, text in enumerate(found.printed.pages) if words in text]
        for words in ("Battery at rest", "All passed, signed")
    )
    assert begins and ends and ends[0] - begins[0] in (1, 2)


@pytest.mark.parametrize("job", ["tansy-subwoofer", "rook-two-amplifiers"])
def test_both_faces_of_a_plug_stand_where_its_pins_are_read(press: Press, job: str) -> None:
    """A mirrored count is the costliest error."""
    pages = press(f"jobs/{job}", "A4").printed.pages
    (begins,) = (text for text in pages if "Battery at rest" in text)
    for face in ("looking at the wires entering", "looking into the open face"):
        assert 1 <= begins.count(face) <= 2


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

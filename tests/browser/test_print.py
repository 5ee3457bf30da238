"""What comes out of the printer, on A4 and on Letter: nothing cut off, nothing twice."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import zxingcpp
from chromium import CHROMIUM, Browser
from printing import PAPER_IN, TO_PICTURE, TO_TEXT, grey_picture, print_page, words_on_paper
from shipped_book import PINOUTS, loombook

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
    pytest.mark.skipif(TO_TEXT is None, reason="pdftotext is not installed"),
]
JOBS = ("leto-four-doors", "rook-two-amplifiers", "orrin-split-fronts")
FOUR_PAIRS = "plans/brantmoor-leto-2019-wagon-mid--cv-4a"
PROBE_PLAN = "plans/veldane-orrin-2021-premium--cv-6s"
VEHICLE = "vehicles/brantmoor-leto-2019-wagon-mid"
ALL = (*(f"jobs/{job}" for job in JOBS), FOUR_PAIRS, PROBE_PLAN, VEHICLE, "health")
MOST_PAGES = {
    FOUR_PAIRS: {"A4": 4, "Letter": 5},
    PROBE_PLAN: {"A4": 4, "Letter": 5},
    VEHICLE: {"A4": 6, "Letter": 6},
    "health": {"A4": 3, "Letter": 3},
    "jobs/kavo-subwoofer": {"A4": 17, "Letter": 17},
}
FOOT = re.compile(
    r"(?:state [0-9a-f]{8} · invented · )?loombook \S+, data of \d{4}-\d\d-\d\d"
    r"\s+(?:sheet ([A-L]) · )?page (\d+) of (\d+)\s*$"
)
ADDRESS = "https://pins.example/book/"


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_every_page_ends_with_its_foot(
    browser: Browser, address: str, tmp_path: Path, page: str, paper: str
) -> None:
    browser.open(f"{address}/{page}.html")
    pages = print_page(browser, paper, tmp_path / "p.pdf").pages
    for at, text in enumerate(pages, 1):
        foot = FOOT.search(text)
        assert foot, text[-300:]
        assert (int(foot[2]), int(foot[3])) == (at, len(pages))
        assert (foot[1] is not None) == page.startswith("jobs/")
        if page != "health":
            assert "state" in foot[0]


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", ALL)
def test_no_word_of_a_cell_a_line_or_a_drawing_is_lost_on_paper(
    browser: Browser, address: str, tmp_path: Path, page: str, paper: str
) -> None:
    browser.open(f"{address}/{page}.html")
    shown = words_on_paper(browser)
    assert len(shown) > 40
    running = print_page(browser, paper, tmp_path / "p.pdf").running
    assert [words for words in shown if words not in running] == []


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", MOST_PAGES)
def test_a_page_takes_no_more_paper_than_it_must(
    browser: Browser, address: str, tmp_path: Path, page: str, paper: str
) -> None:
    browser.open(f"{address}/{page}.html")
    pages = print_page(browser, paper, tmp_path / "p.pdf").pages
    assert len(pages) <= MOST_PAGES[page][paper]


@pytest.mark.parametrize("page", [FOUR_PAIRS, f"jobs/{JOBS[0]}"])
def test_the_turn_on_ladder_stands_on_paper_once(
    browser: Browser, address: str, tmp_path: Path, page: str
) -> None:
    browser.open(f"{address}/{page}.html")
    running = print_page(browser, "A4", tmp_path / "p.pdf").running
    for rung in ("thisbookholdsnodatainterfaceforthiscar", "thelastresort:onlate"):
        assert running.count(rung) == 1


@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("job", JOBS)
def test_every_sheet_of_a_pack_begins_a_page(
    browser: Browser, address: str, tmp_path: Path, job: str, paper: str
) -> None:
    browser.open(f"{address}/jobs/{job}.html")
    titles = browser.run(
        "return [...document.querySelectorAll('.sheet h2[id$=-title]')]"
        ".filter(one => one.querySelector('.letter')).map(one => one.textContent)"
    )
    assert isinstance(titles, list) and len(titles) >= 4
    pages = print_page(browser, paper, tmp_path / "p.pdf").pages
    order = [found[1] for text in pages if (found := FOOT.search(text))]
    assert order == sorted(order)
    for title in titles:
        letter, words = title[0], title[1:].split()
        assert pages[order.index(letter)].split()[: len(words) + 1] == [letter, *words]


@pytest.mark.parametrize("paper", PAPER_IN)
def test_no_page_is_empty_and_none_ends_in_a_heading(
    browser: Browser, address: str, tmp_path: Path, paper: str
) -> None:
    for page in ALL:
        browser.open(f"{address}/{page}.html")
        heads = browser.run(
            "return [...document.querySelectorAll('#content :is(h1, h2, h3, .bay caption)')]"
            ".map(one => one.textContent.trim().replace(/\\s+/g, ' '))"
        )
        assert isinstance(heads, list)
        for text in print_page(browser, paper, tmp_path / "p.pdf").pages:
            lines = [" ".join(line.split()) for line in text.splitlines() if line.strip()]
            assert len(lines) > 1, text
            if "sheet A ·" not in lines[-1]:  # the cover ends in the list of the sheets
                assert lines[-2] not in heads


@pytest.mark.parametrize("paper", PAPER_IN)
def test_a_bay_sheet_of_forty_lines_takes_two_pages(
    browser: Browser, address: str, tmp_path: Path, paper: str
) -> None:
    browser.open(f"{address}/jobs/kavo-subwoofer.html")
    assert browser.run("return document.querySelectorAll('#tests .test').length") in range(35, 45)
    letter = browser.run("return document.querySelector('#tests .letter').textContent")
    pages = print_page(browser, paper, tmp_path / "p.pdf").pages
    feet = [found[1] for text in pages if (found := FOOT.search(text))]
    assert feet.count(letter) <= 2


@pytest.fixture(scope="module")
def addressed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site built for a place of its own."""
    folder = tmp_path_factory.mktemp("addressed") / "site"
    done = loombook("build", PINOUTS, "--output", folder, "--site-address", ADDRESS)
    assert done.exit_code == 0, done.output
    return folder


@pytest.mark.skipif(TO_PICTURE is None, reason="pdftoppm is not installed")
@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("page", [f"jobs/{JOBS[0]}", FOUR_PAIRS, VEHICLE])
def test_the_code_on_a_grey_print_leads_back_to_the_page(
    browser: Browser, addressed: Path, tmp_path: Path, page: str, paper: str
) -> None:
    browser.open((addressed / f"{page}.html").as_uri())
    printed = print_page(browser, paper, tmp_path / "p.pdf")
    picture, _, _ = grey_picture(printed.file)
    assert [code.text for code in zxingcpp.read_barcodes(picture)] == [f"{ADDRESS}{page}.html"]
    assert f"{ADDRESS}{page}.html" in printed.running


def test_without_an_address_paper_says_that_there_is_no_code(
    browser: Browser, address: str, tmp_path: Path
) -> None:
    browser.open(f"{address}/{VEHICLE}.html")
    assert browser.run("return document.querySelector('.way-back').checkVisibility()") is False
    printed = print_page(browser, "A4", tmp_path / "p.pdf")
    assert "Nocodeleadsbacktothispage" in printed.running

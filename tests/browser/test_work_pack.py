"""A job on paper, on a phone, and its ticks."""

from __future__ import annotations

import base64
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
JOBS = ("leto-four-doors", "rook-two-amplifiers", "orrin-split-fronts")
PAPER_IN = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}
TO_TEXT = shutil.which("pdftotext")


def printed(browser: Browser, paper: str, file: Path) -> list[str]:
    """The text of each page as it would be printed."""
    width, height = PAPER_IN[paper]
    size = {"paperWidth": width, "paperHeight": height}
    pdf = browser.driver.execute_cdp_cmd("Page.printToPDF", size)["data"]
    file.write_bytes(base64.b64decode(pdf))
    text = subprocess.run(
        [str(TO_TEXT), "-layout", str(file), "-"], capture_output=True, text=True, check=True
    ).stdout
    return text.split("\f")[:-1]


@pytest.mark.skipif(TO_TEXT is None, reason="pdftotext is not installed")
@pytest.mark.parametrize("paper", PAPER_IN)
@pytest.mark.parametrize("job", JOBS)
def test_every_sheet_begins_a_page_and_every_page_says_its_sheet(
    browser: Browser, address: str, tmp_path: Path, job: str, paper: str
) -> None:
    browser.open(f"{address}/jobs/{job}.html")
    titles = browser.run(
        "return [...document.querySelectorAll('.sheet h2[id$=-title]')]"
        ".filter(one => one.querySelector('.letter')).map(one => one.textContent)"
    )
    assert isinstance(titles, list)
    pages = printed(browser, paper, tmp_path / "pack.pdf")
    feet = [re.findall(rf"Sheet (\w), .*?job {job}", page) for page in pages]
    assert all(len(foot) == 1 for foot in feet), feet
    order = [foot[0] for foot in feet]
    assert order == sorted(order)
    for title in titles:
        letter, words = title[0], title[1:].split()
        first = pages[order.index(letter)].split()
        assert first[: len(words) + 1] == [letter, *words]
    assert "loombook" in pages[-1]


@pytest.mark.skipif(TO_TEXT is None, reason="pdftotext is not installed")
@pytest.mark.parametrize("paper", PAPER_IN)
def test_no_page_is_empty_and_none_ends_in_a_heading(
    browser: Browser, address: str, tmp_path: Path, paper: str
) -> None:
    for job in JOBS:
        browser.open(f"{address}/jobs/{job}.html")
        heads = browser.run(
            "return [...document.querySelectorAll('.sheet h3, .bay caption')]"
            ".map(one => one.textContent.trim())"
        )
        assert isinstance(heads, list)
        for page in printed(browser, paper, tmp_path / "pack.pdf"):
            lines = [" ".join(line.split()) for line in page.splitlines() if line.strip()]
            content = [one for one in lines if not re.match(r"(Sheet \w,|page \d+ of)", one)]
            assert content, page
            assert content[-1] not in heads


@pytest.mark.parametrize("width", [360, 390])
def test_a_phone_shows_it_without_a_sideways_scroll(
    browser: Browser, address: str, width: int
) -> None:
    browser.resize(width)
    for job in JOBS:
        browser.open(f"{address}/jobs/{job}.html")
        assert browser.run("return document.documentElement.scrollWidth") == width
        small = browser.run(
            "return [...document.querySelectorAll('.sheet label, .contents a')]"
            ".filter(one => one.getBoundingClientRect().height < 48).length"
        )
        assert small == 0
    assert browser.complaints() == []


def test_a_tick_is_still_there_when_the_page_is_opened_again(
    browser: Browser, address: str
) -> None:
    page = f"{address}/jobs/{JOBS[0]}.html"
    browser.open(page)
    browser.run("document.getElementById('bay-T1').click()")
    browser.run("document.getElementById('step-2').click()")
    browser.open(page)
    ticked = browser.run(
        "return [...document.querySelectorAll('.sheet input:checked')].map(one => one.id)"
    )
    assert ticked == ["bay-T1", "step-2"]
    browser.open(f"{address}/jobs/{JOBS[1]}.html")
    assert browser.run("return document.querySelectorAll('.sheet input:checked').length") == 0

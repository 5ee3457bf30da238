"""A job on a phone, and its ticks."""

from __future__ import annotations

from itertools import product

import pytest
from chromium import CHROMIUM, Browser

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
JOBS = ("leto-four-doors", "rook-two-amplifiers", "ullin-split-fronts")


def test_a_phone_shows_it_without_a_sideways_scroll(browser: Browser, address: str) -> None:
    for job in JOBS:
        browser.resize(390)
        browser.open(f"{address}/jobs/{job}.html")
        browser.unfold()
        sheets = browser.run("return [...document.querySelectorAll('.sheet')].map(one => one.id)")
        assert isinstance(sheets, list) and len(sheets) > 2
        for width, sheet in product((390, 360), sheets):
            browser.resize(width)
            browser.run("location.hash = arguments[0]", sheet)
            shown = (
                "return [...document.querySelectorAll('.sheet')].filter(s => s.offsetHeight > 1)"
            )
            assert browser.run(f"{shown}.map(s => s.id)") == [sheet]
            assert browser.run("return document.documentElement.scrollWidth") == width
            small = browser.run(
                "return [...document.querySelectorAll('.sheet label, .contents a')]"
                ".filter(one => one.checkVisibility() &&"
                " one.getBoundingClientRect().height < 48).length"
            )
            assert small == 0
        assert browser.complaints() == []


def test_a_tick_is_still_there_when_the_page_is_opened_again(
    browser: Browser, address: str
) -> None:
    page = f"{address}/jobs/{JOBS[0]}.html"
    browser.open(page)
    browser.run("document.getElementById('bay-battery-rest').click()")
    browser.run("document.getElementById('step-2').click()")
    browser.open(page)
    ticked = browser.run(
        "return [...document.querySelectorAll('.sheet input:checked')].map(one => one.id)"
    )
    assert ticked == ["bay-battery-rest", "step-2"]
    browser.open(f"{address}/jobs/{JOBS[1]}.html")
    assert browser.run("return document.querySelectorAll('.sheet input:checked').length") == 0

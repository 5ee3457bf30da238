"""Every figure of the face: what is measured, its goal, and what it was before this face.

`before` are figures of the last site before the pin card, the wiring picture and bay mode, taken on
the same phone of 390 by 844; of places they count from the top of the page, since there was no
answer that opened where it was asked for.
"""

from __future__ import annotations

import gzip
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from bench_finder import time_typing
from face_walks import (
    CAR,
    KEYBOARD_UP,
    SCREEN,
    WALKS,
    Browser,
    as_phone,
    first_answer_px,
    opened,
    walk,
)
from generated_entries import made_entries
from printing import PAPER_IN, print_page

from builder.pipeline.site.finder_files import finder_files

PAGES = {
    "vehicle": f"vehicles/{CAR}.html",
    "plan": f"plans/{CAR}--cvn-2a.html",
    "job, table of sheets": "jobs/tansy-subwoofer.html",
}
PACKS = ("tansy-subwoofer", "tansy-two-coils", "rook-two-amplifiers", "ullin-split-fronts")
SLOWER, TRIES = 4, 5
_PAINT = "return performance.getEntriesByName('first-contentful-paint')[0].startTime"
_SIZE = """
return [document.documentElement.scrollHeight, document.body.innerText.split(/\\s+/).length];
"""
_SHEETS = "return [...document.querySelectorAll('#content .sheet')].map(one => one.id)"

SCROLLED_PX = 2 * SCREEN - SCREEN
"""How far one scrolls to the end of the second screen."""
SHEET_SCREENS, STYLE_KB = 4, 20
PACK_PAGES = {"tansy-subwoofer": 9, "rook-two-amplifiers": 12}
KEY_MEDIAN_MS, KEY_WORST_MS = 16, 50

GOALS: dict[str, float] = {
    "switched pin, and where it sits: taps": 1,
    "switched pin, and where it sits: px scrolled": 0,
    "the same on the car's own page: taps": 1,
    "the same on the car's own page: px scrolled": 0,
    "pins that feed the converter: px scrolled": SCROLLED_PX,
    "first reading to take: px scrolled": SCROLLED_PX,
    "first answer ends, px below the top": KEYBOARD_UP,
    **{f"{pack}, longest sheet: screens": SHEET_SCREENS for pack in PACKS},
    **{f"{pack}: pages A4": pages for pack, pages in PACK_PAGES.items()},
    "style sheet: kB gzip": STYLE_KB,
    "keystroke, median: ms": KEY_MEDIAN_MS,
    "keystroke, worst: ms": KEY_WORST_MS,
}
BEFORE = {
    "switched pin, and where it sits: px scrolled": "3,800",
    "first reading to take: px scrolled": "5,740",
    "vehicle: screens": "22.0",
    "plan: screens": "13.5",
    "job, table of sheets: screens": "48 to 68, all sheets",
    "job, table of sheets: words": "6,000 to 9,000",
    "tansy-subwoofer: pages A4": "17",
    "style sheet: kB gzip": "123, not compressed",
}


class Figure(NamedTuple):
    """One figure of a site. `places` are the decimals that it is printed with."""

    what: str
    value: float
    places: int = 0

    @property
    def goal(self) -> float | None:
        """The most it may be; None where nobody said."""
        return GOALS.get(self.what)

    @property
    def is_met(self) -> bool:
        """Whether it is within its goal, as far as it is printed."""
        return self.goal is None or round(self.value, self.places) <= self.goal


def walked(browser: Browser, site: Path) -> Iterator[Figure]:
    """Taps and scrolling to each answer."""
    as_phone(browser)
    for way in WALKS:
        found = walk(browser, site, way)
        yield Figure(f"{way.what}: taps", found.taps)
        yield Figure(f"{way.what}: px scrolled", found.px)
    yield Figure("first answer ends, px below the top", first_answer_px(browser, site))


def sized(browser: Browser, site: Path) -> Iterator[Figure]:
    """Screens, words and bytes of pages, and the longest sheet of each pack."""
    as_phone(browser)
    for name, page in PAGES.items():
        opened(browser, site, page)
        height, words = browser.run(_SIZE)  # type: ignore[misc]
        yield Figure(f"{name}: screens", height / SCREEN, 1)
        yield Figure(f"{name}: words", words)
        yield Figure(f"{name}: kB gzip", _packed(site / page) / 1000, 1)
    for pack in PACKS:
        yield Figure(f"{pack}, longest sheet: screens", _longest_sheet(browser, site, pack), 1)


def _longest_sheet(browser: Browser, site: Path, pack: str) -> float:
    """Screens of the longest sheet, each at its own address and with its folds shut."""
    opened(browser, site, f"jobs/{pack}.html")
    sheets, heights = browser.run(_SHEETS), []
    assert isinstance(sheets, list)
    for sheet in sheets:
        browser.run("location.hash = arguments[0]", f"#{sheet}")
        browser.fold()
        height, _ = browser.run(_SIZE)  # type: ignore[misc]
        heights.append(height / SCREEN)
    return max(heights)


def weighed(site: Path) -> Iterator[Figure]:
    """Bytes that all pages share, and of the whole site for each car."""
    styles = [_packed(file) for file in (site / "assets").glob("*.css")]
    fonts = [file.stat().st_size for file in (site / "assets").glob("*.woff2")]
    files = [file for file in site.rglob("*") if file.is_file()]
    cars = len(list((site / "data" / "vehicles").glob("*.json")))
    yield Figure("style sheet: kB gzip", sum(styles) / 1000, 1)
    yield Figure("typeface: kB", sum(fonts) / 1000, 1)
    yield Figure("site, for each car: kB", sum(f.stat().st_size for f in files) / 1000 / cars)


def printed(browser: Browser, site: Path) -> Iterator[Figure]:
    """Pages of paper of each pack."""
    for pack in PACKS:
        browser.open((site / f"jobs/{pack}.html").as_uri())
        for paper in PAPER_IN:
            with tempfile.TemporaryDirectory() as folder:
                pages = print_page(browser, paper, Path(folder) / "printed.pdf").pages
            yield Figure(f"{pack}: pages {paper}", len(pages))


def painted(browser: Browser, site: Path) -> Iterator[Figure]:
    """How long after its address was asked for a page shows something, processor slowed."""
    as_phone(browser)
    browser.driver.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    for name, page in PAGES.items():
        tries = []
        for _ in range(TRIES):
            opened(browser, site, page)
            tries.append(browser.run(_PAINT))
        yield Figure(f"{name}: ms to first paint", min(tries))  # type: ignore[type-var]
    browser.driver.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})


def typed(cars: int) -> Iterator[Figure]:
    """What a keystroke takes in a book of so many cars, processor slowed."""
    entries = made_entries(cars)
    times = time_typing(dict(finder_files(entries)), entries)
    yield Figure("keystroke, median: ms", times.median_ms, 1)
    yield Figure("keystroke, worst: ms", times.keys[-1][0], 1)


def _packed(file: Path) -> int:
    return len(gzip.compress(file.read_bytes(), mtime=0))

"""What a person sees of the site on a phone: screens, words, bytes, and the way to each answer.

    python tests/benchmarks/bench_face.py SITE [ANOTHER_SITE]

prints a table of one built site, or of two side by side (before and after). Lengths are those of a
phone of 390 by 844, its processor slowed four times for the first paint (the least of five, since
other work on the machine only adds); nothing is asserted, since what is good enough is judged by
eyes. What a keystroke takes is measured by `bench_finder.py`.
"""

from __future__ import annotations

import gzip
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

sys.path.append(str(Path(__file__).resolve().parents[1] / "browser"))
from chromium import Browser
from printing import PAPER_IN, print_page

WIDTH, SCREEN = 390, 844
CAR = "ostrel-tansy-2017-hatch-base"
PAGES = {
    "vehicle": f"vehicles/{CAR}.html",
    "plan": f"plans/{CAR}--cvn-2a.html",
    "job, first page": "jobs/tansy-subwoofer.html",
    "job, bay sheet": "jobs/tansy-subwoofer.html#tests",
    "job, steps": "jobs/tansy-subwoofer.html#steps",
}
PACKS = ("tansy-subwoofer", "tansy-two-coils", "rook-two-amplifiers", "ullin-split-fronts")
SLOWER, TRIES = 4, 5
# Height, visible words, and how far below the top the first plug and the first reading stand.
_LOOK = """
const top = css => {
  const one = [...document.querySelectorAll(css)].find(n => n.checkVisibility());
  return one ? Math.round(one.getBoundingClientRect().top + scrollY) : null;
};
return [document.documentElement.scrollHeight, document.body.innerText.split(/\\s+/).length,
  top("svg.lb-plug, svg.lb-wiring"), top("table.bay tr[data-ask]")];
"""

_PAINT = "return performance.getEntriesByName('first-contentful-paint')[0].startTime"


class Look(NamedTuple):
    """One page on a phone, in px, words and bytes."""

    height_px: int
    words: int
    plug_px: int | None
    reading_px: int | None
    gzip_bytes: int


def look(browser: Browser, site: Path, page: str) -> Look:
    """Open a page of a site and measure it."""
    browser.open("about:blank")
    browser.open(
        f"{(site / page.partition('#')[0]).as_uri()}{page[page.find('#') :] if '#' in page else ''}"
    )
    height, words, plug, reading = browser.run(_LOOK)  # type: ignore[misc]
    return Look(height, words, plug, reading, len(gzip.compress(_file(site, page).read_bytes())))


def _file(site: Path, page: str) -> Path:
    return site / page.partition("#")[0]


def shared_bytes(site: Path) -> int:
    """What every page loads beside itself: styles and typeface, as sent."""
    styles = sum(len(gzip.compress(f.read_bytes())) for f in (site / "assets").glob("*.css"))
    return styles + sum(f.stat().st_size for f in (site / "assets").glob("*.woff2"))


def first_paint_ms(browser: Browser, site: Path, page: str) -> float:
    """How long after its address was asked for a page shows something, processor slowed."""
    browser.driver.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    tries = []
    for _ in range(TRIES):
        browser.open("about:blank")
        browser.open(_file(site, page).as_uri())
        tries.append(browser.run(_PAINT))
    browser.driver.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 1})
    return min(float(one) for one in tries if isinstance(one, (int, float)))


def sheets_of_paper(browser: Browser, site: Path, page: str, paper: str) -> int:
    """How many pages a page of the site takes when it is printed."""
    browser.open((site / page).as_uri())
    with tempfile.TemporaryDirectory() as folder:
        return len(print_page(browser, paper, Path(folder) / "printed.pdf").pages)


def lines(sites: list[Path]) -> Iterator[str]:
    """Yield the table, one line a figure, one column a site."""
    browser = Browser()
    browser.driver.execute_cdp_cmd(
        "Emulation.setDeviceMetricsOverride",
        {"width": WIDTH, "height": SCREEN, "deviceScaleFactor": 1, "mobile": True},
    )
    for name, page in PAGES.items():
        looks = [look(browser, site, page) for site in sites]
        yield _row(f"{name}: screens", [f"{one.height_px / SCREEN:.1f}" for one in looks])
        yield _row(f"{name}: words", [str(one.words) for one in looks])
        yield _row(f"{name}: px to a plug", [_px(one.plug_px) for one in looks])
        yield _row(f"{name}: px to a reading", [_px(one.reading_px) for one in looks])
        yield _row(f"{name}: kB gzip", [f"{one.gzip_bytes / 1000:.1f}" for one in looks])
        paints = [first_paint_ms(browser, site, page) for site in sites]
        yield _row(f"{name}: ms to first paint", [f"{one:.0f}" for one in paints])
    for pack in PACKS:
        for paper in PAPER_IN:
            counts = [sheets_of_paper(browser, site, f"jobs/{pack}.html", paper) for site in sites]
            yield _row(f"{pack}: pages {paper}", list(map(str, counts)))
    yield _row("styles and typeface: kB", [f"{shared_bytes(site) / 1000:.1f}" for site in sites])
    browser.driver.quit()


def _px(value: int | None) -> str:
    return "none" if value is None else str(value)


def _row(what: str, values: list[str]) -> str:
    return f"{what:34}" + "".join(f"{value:>12}" for value in values)


if __name__ == "__main__":
    for line in lines([Path(one).resolve() for one in sys.argv[1:]]):
        print(line)

"""Every drawing of the built site, laid out by a browser: titled, inside its frame, readable."""

from __future__ import annotations

import re
from itertools import groupby
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
DRAWN = '<svg class="lb-drawing'
WIDTHS = {"phone": 360, "desk": 1280}

_PLACE = """
const read = new DOMParser().parseFromString(arguments[0], "text/html");
document.body.replaceWith(document.adoptNode(read.body));
"""
# A line box is taller than its letters: two may overlap by a quarter of one.
_MEASURE = """
document.documentElement.classList.remove("apart");  // all sheets of a pack, not its first alone
document.querySelectorAll(".shut").forEach(piece => piece.classList.remove("shut"));
const faults = [], kinds = new Set();
let words = 0;
for (const svg of document.querySelectorAll("svg.lb-drawing:not([aria-hidden])")) {
  const told = (svg.getAttribute("aria-labelledby") ?? "").split(" ")
    .map(id => document.getElementById(id));
  const name = told[0]?.textContent ?? "";
  kinds.add([...svg.classList].at(-1));
  if (!told.every(Boolean) || !name || !told[1]?.textContent) faults.push([name, "untold"]);
  if (!svg.checkVisibility()) continue;
  const frame = svg.getBoundingClientRect();
  let held = svg;  // what is pushed sideways by itself may be wider than what holds it
  while (held !== document.body && getComputedStyle(held).overflowX !== "auto")
    held = held.parentElement;
  const seen = (held === document.body ? svg : held).getBoundingClientRect();
  if (seen.left < 0 || seen.right > innerWidth) faults.push([name, "wider than the window"]);
  const texts = [...svg.querySelectorAll("text")]
    .filter(one => getComputedStyle(one).visibility !== "hidden")
    .map(one => [one, one.getBoundingClientRect()]);
  words += texts.length;
  for (const [one, box] of texts) {
    const said = one.textContent;
    if (said.includes("…")) faults.push([name, "cut short", said]);
    if (getComputedStyle(one).userSelect === "none") faults.push([name, "not selectable", said]);
    if (box.left < frame.left - .6 || box.right > frame.right + .6
        || box.top < frame.top - .6 || box.bottom > frame.bottom + .6)
      faults.push([name, "outside", said]);
  }
  texts.forEach(([one, a], at) => {
    for (const [other, b] of texts.slice(at + 1)) {
      const lap = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) - a.height / 4;
      if (a.left < b.right - .5 && b.left < a.right - .5 && lap > 0)
        faults.push([name, one.textContent, other.textContent]);
    }
  });
  for (const one of svg.querySelectorAll("rect, path, circle, use")) {
    if (one.closest("defs")) continue;  // it is seen where it is put
    const box = one.getBoundingClientRect(), slack = 3;
    if (box.left < frame.left - slack || box.right > frame.right + slack
        || box.top < frame.top - slack || box.bottom > frame.bottom + slack)
      faults.push([name, "shape outside", one.getAttribute("class") ?? ""]);
  }
}
return {faults, kinds: [...kinds], words};
"""


def pages_with_drawings(site: Path) -> list[str]:
    return sorted(
        page.relative_to(site).as_posix()
        for page in site.rglob("*.html")
        if DRAWN in page.read_text("utf-8")
    )


def by_folder(site: Path) -> list[list[str]]:
    pages = pages_with_drawings(site)
    return [list(found) for _, found in groupby(pages, lambda page: page.rpartition("/")[0])]


def sheets(site: Path, page: str) -> list[str]:
    return re.findall(r'<link [^>]*rel="stylesheet"[^>]*>', (site / page).read_text("utf-8"))


@pytest.mark.parametrize("width", WIDTHS)
def test_every_shipped_drawing_is_told_in_words_and_readable(
    browser: Browser, site: Path, width: str
) -> None:
    """One page of each folder is opened; the rest are laid out in its place, by its style sheets,
    which takes a tenth of the time. The page that was opened is laid out again as they are."""
    browser.resize(WIDTHS[width])
    kinds: set[str] = set()
    words = 0
    for pages in by_folder(site):
        browser.open((site / pages[0]).as_uri())
        opened = browser.run(_MEASURE)
        for page in pages:
            assert sheets(site, page) == sheets(site, pages[0]), page
            measured = browser.run(_PLACE + _MEASURE, (site / page).read_text("utf-8"))
            assert isinstance(measured, dict)
            assert measured["faults"] == [], page
            assert page != pages[0] or measured == opened
            kinds |= set(measured["kinds"])
            words += measured["words"]
    assert kinds >= {"lb-plug-w", "lb-plug-m", "lb-block", "lb-ladder", "lb-tree", "lb-bars"}
    assert words > 10_000


def test_no_drawing_tells_by_colour_alone(site: Path) -> None:
    """A filled shape is a wire (its words stand beside it) or ink; nothing else has a colour."""
    for page in pages_with_drawings(site):
        for drawn in re.findall(
            r'<svg class="lb-drawing.*?</svg>', (site / page).read_text("utf-8")
        ):
            for shape in re.findall(r"<(?:rect|path|circle)[^>]*>", drawn):
                if re.search(r'(?:fill|stroke)="#', shape):
                    assert re.search(
                        r'class="lb-(wire|stripe|core|core-stripe|run|run-stripe)"', shape
                    ), shape

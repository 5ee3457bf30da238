"""Pages printed by Chromium and read again: text page by page, words in print, pictures."""

from __future__ import annotations

import base64
import re
import shutil
import subprocess
from pathlib import Path
from typing import NamedTuple

from chromium import Browser

TO_TEXT, TO_PICTURE = shutil.which("pdftotext"), shutil.which("pdftoppm")
TO_FONTS = shutil.which("pdftohtml")
PAPER_IN = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}

# The words of every cell, list line and drawing that paper shows, blanks taken out.
_SHOWN = """
const shown = [];
for (const one of document.querySelectorAll(
    "#content :is(td, th, dt, dd, li, h1, h2, h3, .banner p, .sheet-of, svg text)")) {
  if (one.querySelector("ul, ol, table, p, svg") || !one.checkVisibility()) continue;
  const words = (one.innerText ?? one.textContent).replace(/\\s+/g, "");
  if (words) shown.push(words);
}
return shown;
"""

# The boxes to write in that reach beyond the row they stand in.
_SPILLING = """
return [...document.querySelectorAll("#content tr .box")]
  .filter(box => box.checkVisibility() && (box.closest("tr").getBoundingClientRect().right + 0.5
      < box.getBoundingClientRect().right
    || box.closest("tr").getBoundingClientRect().bottom + 0.5 < box.getBoundingClientRect().bottom))
  .map(box => box.closest("tr").innerText.slice(0, 60));
"""


class Printed(NamedTuple):
    """A printed page of the site: its file and the text of each sheet of paper."""

    file: Path
    pages: list[str]
    running: str  # all text in the order it was drawn, without blanks


def print_page(browser: Browser, paper: str, file: Path) -> Printed:
    """Print what the browser shows on `paper` to `file`."""
    width, height = PAPER_IN[paper]
    size = {"paperWidth": width, "paperHeight": height}
    pdf = browser.driver.execute_cdp_cmd("Page.printToPDF", size)["data"]
    file.write_bytes(base64.b64decode(pdf))
    return Printed(
        file,
        text_of(file, "-layout").split("\f")[:-1],
        re.sub(r"\s+", "", text_of(file, "-raw")),
    )


def text_of(file: Path, order: str) -> str:
    """Return the text of a printed page, with the option of pdftotext that orders it."""
    command = [str(TO_TEXT), order, str(file), "-"]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


_ZOOM = 3  # pdftohtml counts in whole units, three of them a point
_FONT = re.compile(r'<fontspec id="(\d+)" size="(\d+)"')
_TEXT = re.compile(r'<text [^>]*font="(\d+)">(.*?)</text>')


def smallest_type(file: Path) -> tuple[float, list[str]]:
    """Return the size in points of the smallest type of a printed page, and what is set in it."""
    command = [str(TO_FONTS), "-xml", "-i", "-stdout", "-zoom", str(_ZOOM), str(file)]
    told = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    sizes = {font: int(size) / _ZOOM for font, size in _FONT.findall(told)}
    said = [(sizes[font], words) for font, words in _TEXT.findall(told) if words.strip()]
    least = min(size for size, _ in said)
    return least, [words for size, words in said if size == least]


_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', re.S)
_WORD = re.compile(
    r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>'
)


def words_off_paper(file: Path, margin_mm: float) -> list[str]:
    """Return the words of a printed page that come nearer to the edge than `margin_mm`."""
    edge, off = margin_mm * 72 / 25.4, []
    for width, height, page in _PAGE.findall(text_of(file, "-bbox")):
        for left, top, right, bottom, word in _WORD.findall(page):
            inside = edge <= float(left) and float(right) <= float(width) - edge
            if not (inside and edge <= float(top) and float(bottom) <= float(height) - edge):
                off.append(word)
    return off


def words_on_paper(browser: Browser) -> list[str]:
    """What the page in the browser shows in print: the words of each cell, line and drawing."""
    return _in_print(browser, _SHOWN)


def spilling_boxes(browser: Browser) -> list[str]:
    """The rows of the page in the browser whose boxes to write in are cut off in print."""
    return _in_print(browser, _SPILLING)


# The size of the words that somebody works by, in points, with the first of them.
_BODY_SIZES = """
const sizes = {};
for (const one of document.querySelectorAll(".work-steps .what, .bay .what, .mind, .gate, "
    + ".customer-lines li, .caution p, .pick label")) {
  if (one.checkVisibility()) sizes[parseFloat(getComputedStyle(one).fontSize) * 0.75] ??=
    one.textContent.trim().slice(0, 40);
}
return Object.entries(sizes).map(([size, words]) => [parseFloat(size), words]);
"""


def body_sizes(browser: Browser) -> list[tuple[float, str]]:
    """The sizes in print of the words that somebody works by, each with words of that size."""
    return [(size, words) for size, words in _in_print(browser, _BODY_SIZES)]  # type: ignore[misc]


def _in_print(browser: Browser, asked: str) -> list[str]:
    medium = "Emulation.setEmulatedMedia"
    browser.driver.execute_cdp_cmd(medium, {"media": "print"})
    try:
        found = browser.run(asked)
    finally:
        browser.driver.execute_cdp_cmd(medium, {"media": ""})
    assert isinstance(found, list)
    return found


def grey_picture(file: Path, page: int = 1) -> tuple[memoryview, int, int]:
    """A printed page as grey pixels (rows, columns), at 200 dots an inch."""
    at = str(page)
    command = [str(TO_PICTURE), "-gray", "-r", "200", "-f", at, "-l", at, str(file)]
    pgm = subprocess.run(command, capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", pgm)
    assert head
    columns, rows = int(head[1]), int(head[2])
    pixels = memoryview(pgm[head.end() :])
    return pixels.cast("B", [rows, columns]), rows, columns

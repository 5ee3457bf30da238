"""From a question to its answer on a phone: how many taps, and how far one scrolls."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests" / "browser")]

from chromium import Browser  # noqa: E402
from selenium.webdriver.support.wait import WebDriverWait  # noqa: E402

CAR = "ostrel-tansy-2017-hatch-base"
WIDTH, SCREEN = 390, 844
KEYBOARD_UP = 508
"""Px of a phone's screen that its keyboard leaves."""


class Walk(NamedTuple):
    """A question, where it is asked, what is tapped on the way, and what is the answer.

    `typed` goes into the search field of the page; `answer` must hold `words`, in any order.
    """

    what: str
    page: str
    typed: str
    taps: tuple[str, ...]
    answer: str
    words: tuple[str, ...]


class Walked(NamedTuple):
    """What a walk took; `px` is all scrolling, until the whole answer is on the screen."""

    taps: int
    px: int


PLAN_LINK = f"#finder-answers a[href$='plans/{CAR}--cvn-2a.html']"
_SWITCHED = (".pin-card", ("A.7", "looking at the wires", "looking into the open face"))
WALKS = (
    Walk("switched pin, and where it sits", "index.html", "tansy switched",
         ("#finder-answers .finder-open",), *_SWITCHED),
    Walk("the same on the car's own page", f"vehicles/{CAR}.html", "",
         ("#answers a[href^='#pin-A-7']",), *_SWITCHED),
    Walk("pins that feed the converter", "index.html", "tansy cvn-2a",
         (PLAN_LINK,), ".fed", ("A.11", "A.12", "A.13", "A.14")),
    Walk("first reading to take", "index.html", "tansy cvn-2a",
         (PLAN_LINK,), "table.bay tr[data-ask]", ("Must read",)),
    Walk("first step of a job", "index.html", "tansy subwoofer",
         ("#finder-answers a[href$='jobs/tansy-subwoofer.html']", "#cover a[href='#steps']"),
         ".work-steps > li", ()),
)  # fmt: skip

# Scrolls until an element is on the part of the screen that the bar at its foot leaves, or, when it
# is taller, until it begins there; says by how much.
_REACH = """
const bar = document.querySelector(".lb-nav"), low = bar ? bar.getBoundingClientRect() : null;
const below = low && low.bottom >= innerHeight - 1 && low.top > innerHeight / 2;
const free = below ? low.top : innerHeight;
const one = [...document.querySelectorAll(arguments[0])].find(n => n.checkVisibility());
const box = one.getBoundingClientRect();
const by = box.top < 0 ? box.top : Math.max(0, Math.min(box.top, box.bottom - free));
scrollBy({top: by, behavior: "instant"});
return Math.round(Math.abs(by));
"""
_SEEN = """
return [...document.querySelectorAll(arguments[0])].some(n => n.checkVisibility());
"""
_TAP = """
[...document.querySelectorAll(arguments[0])].find(n => n.checkVisibility()).click();
"""
_TYPE = """
const field = document.getElementById("finder-field");
field.value = arguments[0];
field.dispatchEvent(new Event("input", {bubbles: true}));
"""
_SAYS = """
const one = [...document.querySelectorAll(arguments[0])].find(n => n.checkVisibility());
const heads = [...(one.closest("table")?.tHead?.rows[0].cells ?? [])];
const labelled = [...one.querySelectorAll("[aria-label], [data-label]")];
return [one, ...heads].map(n => n.innerText).join(" ") + labelled
  .map(n => (n.ariaLabel || "") + " " + (n.dataset.label || "")).join(" ");
"""


def as_phone(browser: Browser) -> None:
    """Be a phone of 390 by 844."""
    browser.resize(WIDTH, SCREEN)


def walk(browser: Browser, site: Path, way: Walk) -> Walked:
    """Take a way on a site, as a phone; the answer has to say what it must."""
    opened(browser, site, way.page)
    if way.typed:
        browser.run(_TYPE, way.typed)
    px = 0
    for at in way.taps:
        px += _reach(browser, at)
        browser.run(_TAP, at)
    px += _reach(browser, way.answer)
    said = str(browser.run(_SAYS, way.answer))
    missing = [words for words in way.words if words not in said]
    assert not missing, f"{way.what}: {missing} not in {said!r}"
    return Walked(len(way.taps), px)


def opened(browser: Browser, site: Path, page: str) -> None:
    """Open a page of a site, that of a sheet (`page.html#sheet`) too, as if for the first time."""
    url, mark, sheet = page.partition("#")
    browser.open("about:blank")
    browser.open((site / url).as_uri() + mark + sheet)


def first_answer_px(browser: Browser, site: Path) -> int:
    """How far below the top of the screen the first answer to a typed question ends."""
    opened(browser, site, "index.html")
    browser.run(_TYPE, "tansy switched")
    _reach(browser, "#finder-answers .finder-row")
    end = browser.run("return document.querySelector('.finder-row').getBoundingClientRect().bottom")
    assert isinstance(end, int | float)
    return round(end)


def _reach(browser: Browser, css: str) -> int:
    WebDriverWait(browser.driver, 10).until(lambda _: browser.run(_SEEN, css))
    found = browser.run(_REACH, css)
    assert isinstance(found, int)
    return found

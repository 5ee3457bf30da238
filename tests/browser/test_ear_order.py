"""What a screen reader reads, in its order, of one page of each kind."""

from __future__ import annotations

from itertools import pairwise

import pytest
from chromium import Browser
from ear_order import FIELDS, PICTURES, PRESSED, Heard, heard, words
from page_kinds import JOB, PAGES, PLAN, STATES, VEHICLE
from selenium.webdriver.support.wait import WebDriverWait
from test_finder_use import ask

pytestmark = pytest.mark.browser
NO_NAMES = {"", "button", "link", "field", "image", "input", "±", "×", "…", "+", "−"}
"""Names that say nothing to who cannot see what stands beside them."""
_UNFOLD = "document.querySelectorAll('details').forEach(fold => { fold.open = true; })"


@pytest.fixture(scope="module", params=[*PAGES, *STATES])
def read(request: pytest.FixtureRequest, chromium: Browser, address: str) -> list[Heard]:
    """What is read of a page on a phone, its folds open."""
    chromium.resize(390)
    chromium.open("about:blank")
    chromium.open(f"{address}/{request.param}")
    chromium.run(_UNFOLD)
    return heard(chromium)


def test_headings_nest_and_each_says_something(read: list[Heard]) -> None:
    found = [one for one in read if one.role == "heading"]
    assert found and found[0].level == 1
    assert [(a.name, b.name) for a, b in pairwise(found) if b.level > a.level + 1] == []
    assert [one for one in found if not one.name] == []


def test_what_is_pressed_typed_into_or_drawn_has_a_name(read: list[Heard]) -> None:
    named = FIELDS | PRESSED | PICTURES
    assert [one for one in read if one.role in named and one.name.lower() in NO_NAMES] == []


def test_nameless_things_would_be_heard(chromium: Browser, address: str) -> None:
    chromium.open(f"{address}/not-saved.html")
    chromium.run(
        "const main = document.querySelector('main'), drawn = 'http://www.w3.org/2000/svg';"
        "const svg = document.createElementNS(drawn, 'svg'); svg.setAttribute('role', 'img');"
        "main.append(document.createElement('button'), document.createElement('input'), svg);"
    )
    bad = [one.role for one in heard(chromium) if one.name == ""]
    assert {"button", "textbox"} <= set(bad) and PICTURES & set(bad)


@pytest.mark.parametrize("page", [VEHICLE, PLAN, f"{JOB}#steps", f"{JOB}#tests"])
def test_danger_is_read_before_what_it_warns_of(browser: Browser, address: str, page: str) -> None:
    """Before the first cavity, drawing, step and reading."""
    read = opened(browser, address, page)
    danger = next(n for n, one in enumerate(read) if one.name.startswith(DANGER))
    warned = [n for n, one in enumerate(read) if is_warned_of(one)]
    assert warned and danger < warned[0]


DANGER = ("Danger:", "Before you touch it")


def is_warned_of(one: Heard) -> bool:
    """Whether this is a cavity, a drawing of a plug or of wiring, a step or a reading."""
    drawn = one.role in PICTURES and ("wiring of" in one.name or "looking" in one.name)
    return drawn or one.role == "checkbox" or one.name in ("A.11", "A.7")


def opened(browser: Browser, address: str, page: str) -> list[Heard]:
    browser.resize(390)
    browser.open("about:blank")
    browser.open(f"{address}/{page}")
    return heard(browser)


def in_order(said: str, parts: list[str]) -> bool:
    """Whether each part is said, behind the one before it."""
    at = 0
    for part in parts:
        found = said.find(part, at)
        if found < 0:
            return False
        at = found + len(part)
    return True


def test_a_plan_reads_danger_then_its_picture_then_what_is_measured_first(
    browser: Browser, address: str
) -> None:
    said = words(opened(browser, address, PLAN))
    parts = [
        "Before you touch it",
        "wiring of Ostrel Tansy",
        "in 1",
        "A.11",
        "Measure before a joint",
    ]
    assert in_order(said, parts), said[:2000]
    assert not in_order(said, parts[::-1])


CARD = ["A.7", "retained supply", "red", "proven", "asleep"]
"""Pin, function, wire, grade, states; then where it sits on both faces."""


@pytest.mark.parametrize("page", ["index.html", VEHICLE])
def test_a_card_reads_pin_function_wire_grade_states(
    browser: Browser, address: str, page: str
) -> None:
    opened(browser, address, page)
    if page == VEHICLE:
        browser.run("document.querySelector(\"#answers a[href='#pin-A-7']\").click()")
    else:
        ask(browser, "tansy switched")
        browser.run("document.querySelector('.finder-open').click()")
    card = "return document.querySelectorAll('.pin-card').length"
    WebDriverWait(browser.driver, 5).until(lambda _: browser.run(card))
    lines = heard(browser)
    start = next(n for n, one in enumerate(lines) if one.role == "article" and "A.7" in one.name)
    inside = lines[start + 1 :]
    deeper = next(
        (n for n, one in enumerate(inside) if one.depth <= lines[start].depth), len(inside)
    )
    said = words(inside[:deeper])
    assert in_order(said.lower(), [*(part.lower() for part in CARD), "wires side", "open face"]), (
        said
    )

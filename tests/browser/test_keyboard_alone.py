"""From the front page to a file of evidence without a pointer, as wide as a phone and as a desk."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from chromium import Browser
from page_kinds import JOB, PLAN, VEHICLE
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.wait import WebDriverWait
from test_bay_sheet import of_sheet, saved

pytestmark = pytest.mark.browser
Focus = dict[str, Any]
_FOCUS = """
const one = document.activeElement, look = getComputedStyle(one), box = one.getBoundingClientRect();
const label = one.labels && one.labels[0];
return {name: one.localName, words: one.textContent.trim().replace(/\\s+/g, " "), id: one.id,
  label: label ? label.textContent.trim() : "", said: one.ariaLabel || "",
  href: one.getAttribute("href") || "", classes: one.className,
  ring: look.outlineStyle === "none" ? 0 : parseFloat(look.outlineWidth),
  in: [...document.querySelectorAll("[id], .pin-card, .bay-now")].filter(up => up.contains(one))
    .map(up => up.id || up.className),
  seen: box.height > 0 && box.width > 0 && box.bottom > 0 && box.top < innerHeight
    && box.right > 0 && box.left < innerWidth};
"""


class Hand:
    """Keys pressed one after the other; after each the focus is somewhere and can be seen."""

    def __init__(self, browser: Browser) -> None:
        self.browser = browser

    def press(self, *keys: str) -> Focus:
        ActionChains(self.browser.driver).send_keys(*keys).perform()
        return self.focus()

    def focus(self) -> Focus:
        found = self.browser.run(_FOCUS)
        assert isinstance(found, dict)
        return found

    def seen(self) -> Focus:
        at = self.focus()
        assert at["name"] not in ("body", "html"), "the focus is lost"
        whole_screen = "bay-now" in at["classes"]  # then nothing else is shown that has it
        assert at["seen"] and (at["ring"] >= 2 or whole_screen), at
        return at

    def tab_to(self, most: int, wanted: Callable[[Focus], bool], key: str = Keys.TAB) -> Focus:
        for _ in range(most):
            self.press(key)
            if wanted(at := self.seen()):
                return at
        raise AssertionError(f"{most} times Tab do not lead there: last at {self.focus()}")

    def arrive(self, url: str) -> None:
        driver = self.browser.driver
        WebDriverWait(driver, 5).until(lambda one: one.current_url.split("#")[0].endswith(url))

    def moves_on(self) -> None:
        """Tab leads on from here: this is no trap."""
        here = self.seen()
        assert self.press(Keys.TAB) != here


@pytest.mark.parametrize("width", [390, 1440])
def test_from_a_question_to_evidence_by_keys_alone(
    browser: Browser, address: str, tmp_path: Path, width: int
) -> None:
    browser.as_phone(tmp_path)
    browser.resize(width, 844)
    browser.open(f"{address}/index.html")
    browser.run("localStorage.clear()")
    hand = Hand(browser)
    to_the_card(hand)
    to_the_plan(hand)
    to_bay_mode(hand)
    row = to_a_reading(hand)
    hand.press("0,01")
    hand.moves_on()
    hand.press(Keys.ESCAPE)
    assert browser.run("return document.documentElement.matches('.bay-mode')") is False
    hand.seen()
    evidence(hand)
    readings = of_sheet(saved(browser, tmp_path))
    assert row in str(readings)
    browser.run("localStorage.clear()")


def to_the_card(hand: Hand) -> None:
    """Type a question; its answer opens a card in place, which Escape closes again."""
    hand.tab_to(9, lambda at: at["id"] == "finder-field")
    hand.press("tansy cvn-2a switched")
    first = hand.tab_to(9, lambda at: "finder-answers" in at["in"])
    assert first["href"] == PLAN
    opener = hand.tab_to(9, lambda at: at["classes"] == "finder-open")
    card = "return document.querySelectorAll('.pin-card .lb-ring').length"
    hand.press(Keys.ENTER)
    assert hand.browser.run(card) == 2
    hand.tab_to(9, lambda at: "pin-card" in at["in"])
    hand.press(Keys.ESCAPE)
    assert (hand.browser.run(card), hand.seen()["words"]) == (0, opener["words"])
    hand.press(Keys.ENTER)
    assert hand.browser.run(card) == 2


def to_the_plan(hand: Hand) -> None:
    """From the card to the plans of its car, and to one of them."""
    hand.tab_to(9, lambda at: at["href"] == f"{VEHICLE}#plans")
    hand.press(Keys.ENTER)
    hand.arrive(VEHICLE)
    hand.tab_to(30, lambda at: at["href"].endswith(PLAN))
    hand.press(Keys.ENTER)
    hand.arrive(PLAN)


def to_bay_mode(hand: Hand) -> None:
    """From the plan to the job that is on this car, and into its work."""
    hand.tab_to(150, lambda at: at["href"].endswith(JOB))
    hand.press(Keys.ENTER)
    hand.arrive(JOB)
    hand.tab_to(15, lambda at: at["words"].startswith("Work through it"))
    hand.press(Keys.ENTER)
    assert hand.browser.run("return document.documentElement.matches('.bay-mode')") is True
    hand.seen()


def to_a_reading(hand: Hand) -> str:
    """On through the steps to the first figure that is asked for; return the name of its line."""
    asked = (
        "const now = document.querySelector('.bay-now');"
        "return now.dataset.ask ? window.loombookBay.askOf(now) : null"
    )
    for _ in range(12):
        ask = hand.browser.run(asked)
        if isinstance(ask, dict) and ask["quantity"] == "dc_v":
            hand.tab_to(5, lambda at: at["name"] == "input" and "reads" in at["said"])
            return str(ask["test"])
        hand.press(Keys.ARROW_RIGHT)
        hand.seen()
    raise AssertionError("no figure is asked for in the first twelve screens")


def evidence(hand: Hand) -> None:
    """To the bay sheet, who measured, and the file."""
    hand.tab_to(15, lambda at: at["href"] == "#tests")
    hand.press(Keys.ENTER)
    hand.tab_to(15, lambda at: at["label"].startswith("By"))
    hand.press("North Bay")
    hand.tab_to(30, lambda at: at["words"] == "Download evidence")
    hand.press(Keys.ENTER)

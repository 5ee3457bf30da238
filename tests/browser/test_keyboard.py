"""Finder, answers, proofs and ticks without a pointer: keys reach them and do what they should."""

from __future__ import annotations

from typing import Any

import pytest
from chromium import Browser
from page_kinds import PAGES, PLAN, VEHICLE
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.wait import WebDriverWait

pytestmark = pytest.mark.browser
_WHERE = """
const one = document.activeElement, look = getComputedStyle(one);
const box = one.getBoundingClientRect();
return {name: one.localName, type: one.type || "", id: one.id, href: one.getAttribute("href") || "",
  inside: [...document.querySelectorAll("[id]")].filter(up => up.contains(one)).map(up => up.id),
  ring: look.outlineStyle === "none" ? 0 : parseFloat(look.outlineWidth),
  seen: box.bottom > 0 && box.top < innerHeight && box.width > 0};
"""


def press(browser: Browser, *keys: str) -> dict[str, Any]:
    """Press keys one after the other; say where the focus is then."""
    ActionChains(browser.driver).send_keys(*keys).perform()
    found = browser.run(_WHERE)
    assert isinstance(found, dict)
    return found


def tab_to(browser: Browser, most: int, **wanted: object) -> dict[str, Any]:
    """Press Tab until the focus is on something with each of the `wanted` properties."""
    for _ in range(most):
        at = press(browser, Keys.TAB)
        if all(at[name] == value for name, value in wanted.items()):
            return at
    raise AssertionError(f"{most} times Tab do not reach {wanted}: last at {at}")


def test_the_first_stop_leads_past_the_head(browser: Browser, address: str) -> None:
    browser.open(f"{address}/{VEHICLE}")
    first = press(browser, Keys.TAB)
    assert (first["href"], first["seen"]) == ("#content", True)
    press(browser, Keys.ENTER)
    after = press(browser, Keys.TAB)
    assert "content" in after["inside"]


def test_a_question_is_typed_and_its_answer_opened(browser: Browser, address: str) -> None:
    browser.open(f"{address}/index.html")
    tab_to(browser, 12, id="finder-field")
    press(browser, "tansy 2017 switched")
    for _ in range(12):
        at = press(browser, Keys.TAB)
        if at["name"] == "a" and "finder-answers" in at["inside"]:
            break
    assert "vehicles/" in at["href"] and at["ring"] >= 2
    press(browser, Keys.ENTER)
    assert "/vehicles/" in browser.driver.current_url


def test_an_answer_opens_the_card_of_its_pin_and_that_its_proof(
    browser: Browser, address: str
) -> None:
    browser.open(f"{address}/{VEHICLE}")
    for _ in range(25):
        at = press(browser, Keys.TAB)
        if "answers" in at["inside"]:
            break
    assert at["href"].startswith("#")
    press(browser, Keys.ENTER)
    card = "return [...document.querySelectorAll('.pin-card svg .lb-ring')].length"
    assert browser.run(card) == 2, "its cavity is ringed on both faces"
    proof = at["href"]
    for _ in range(4):
        at = press(browser, Keys.TAB)
        if at["href"] == proof:
            break
    press(browser, Keys.ENTER)
    opened = "return document.getElementById(arguments[0]).querySelector('details').open"
    WebDriverWait(browser.driver, 5).until(lambda _: browser.run(opened, proof[1:]))


def test_enter_opens_and_closes_a_proof(browser: Browser, address: str) -> None:
    browser.open(f"{address}/{VEHICLE}")
    browser.run("document.querySelector('table.pins').tabIndex = -1")
    browser.run("document.querySelector('table.pins').focus()")
    assert press(browser, Keys.TAB)["name"] == "summary"
    opened = "return document.activeElement.parentElement.open"
    for key, wanted in ((Keys.ENTER, True), (Keys.SPACE, False)):
        press(browser, key)
        assert browser.run(opened) is wanted


def test_space_ticks_each_line_of_a_plan_in_its_order(browser: Browser, address: str) -> None:
    browser.open(f"{address}/{PLAN}")
    boxes = browser.run(
        "return [...document.querySelectorAll('[data-ticks] input[type=checkbox]')].map(b => b.id)"
    )
    assert isinstance(boxes, list) and len(boxes) >= 3
    first = tab_to(browser, 80, type="checkbox")
    assert (first["id"], first["ring"] >= 2) == (boxes[0], True)
    press(browser, Keys.SPACE)
    second = tab_to(browser, 8, type="checkbox")  # past the fields of the reading
    assert second["id"] == boxes[1]
    browser.driver.refresh()
    kept = "return document.getElementById(arguments[0]).checked"
    assert [browser.run(kept, box) for box in boxes[:2]] == [True, False]
    browser.run("localStorage.clear()")


@pytest.mark.parametrize("url", [*PAGES[:6], PLAN])
def test_where_the_focus_is_can_be_seen(browser: Browser, address: str, url: str) -> None:
    browser.open(f"{address}/{url}")
    for _ in range(30):
        at = press(browser, Keys.TAB)
        if at["name"] == "body":
            break
        assert at["ring"] >= 2 and at["seen"], at

"""The finder by keyboard, by touch, from an address, from files, and without storage."""

from __future__ import annotations

from typing import Any

import pytest
from selenium.webdriver.common.keys import Keys
from shipped_book import loombook
from shop_book import OWN_CAR, shop_book

pytestmark = pytest.mark.browser

NO_STORAGE = """
  Object.defineProperty(window, "localStorage", { get() { throw new DOMException("refused"); } });
"""
SHOWN = "return [...document.querySelectorAll('.finder-car a')].map(a => a.getAttribute('href'))"
CHOICES = (
    "return [...document.querySelectorAll('.finder-choice')].map(b => b.firstChild.data.trim())"
)
QUERN = ["vehicles/wexlow-quern-2016-early.html", "vehicles/wexlow-quern-2018-late.html"]


def field(browser: Any) -> Any:
    return browser.driver.find_element("id", "finder-field")


def ask(browser: Any, text: str) -> None:
    """Put a whole question into the field at once."""
    browser.run(
        "const f = document.getElementById('finder-field'); f.value = arguments[0];"
        "f.dispatchEvent(new Event('input', {bubbles: true}))",
        text,
    )


def active(browser: Any) -> Any:
    return browser.driver.switch_to.active_element


def hash_of(browser: Any) -> str:
    return str(browser.run("return location.hash"))


def fresh(browser: Any, address: str, where: str = "index.html") -> None:
    browser.open("about:blank")
    browser.open(f"{address}/{where}")


@pytest.mark.parametrize("how", ["http", "file"])
def test_make_model_year_and_variant_by_keyboard(browser, address, site, how):
    fresh(browser, address if how == "http" else f"file://{site}")
    field(browser).send_keys(Keys.ARROW_DOWN)
    while not active(browser).text.startswith("Wexlow"):
        active(browser).send_keys(Keys.ARROW_RIGHT)
    active(browser).send_keys(Keys.ENTER)
    assert hash_of(browser) == "#car=wexlow/quern"
    assert browser.run(CHOICES) == ["2016", "2017", "2018", "2019", "2020"]
    assert browser.run(SHOWN) == QUERN
    while not active(browser).text.startswith("2018"):
        active(browser).send_keys(Keys.ARROW_RIGHT)
    active(browser).send_keys(Keys.ENTER)
    assert len(browser.run(CHOICES)) == 2
    active(browser).send_keys(Keys.ENTER)
    assert browser.run(SHOWN) == QUERN[:1]
    field(browser).send_keys("ground")
    assert browser.run(SHOWN) == QUERN[:1]
    assert "cavity 20" in str(browser.run("return document.getElementById('finder').innerText"))
    assert browser.complaints() == []


def test_escape_clears_and_goes_back_and_slash_returns(browser, address):
    fresh(browser, address, "index.html#car=wexlow/quern/2018&ask=ground")
    assert field(browser).get_attribute("value") == "ground"
    assert browser.run(SHOWN) == QUERN
    field(browser).send_keys(Keys.ESCAPE)
    assert field(browser).get_attribute("value") == ""
    assert hash_of(browser) == "#car=wexlow/quern/2018"
    for left in ("#car=wexlow/quern", "#car=wexlow", ""):
        field(browser).send_keys(Keys.ESCAPE)
        assert hash_of(browser) == left
    browser.run("document.activeElement.blur()")
    browser.driver.find_element("tag name", "body").send_keys("/")
    assert active(browser).get_attribute("id") == "finder-field"
    assert field(browser).get_attribute("value") == ""
    field(browser).send_keys("tansy w/b")
    assert field(browser).get_attribute("value") == "tansy w/b"


def test_the_address_leads_to_the_answer_and_back_works(browser, address):
    fresh(browser, address, "index.html#car=ostrel/tansy")
    assert browser.run(SHOWN) == ["vehicles/ostrel-tansy-2017-hatch-base.html"]
    browser.driver.find_element("css selector", ".finder-crumb").click()
    assert browser.run(SHOWN) == []
    browser.driver.back()
    assert browser.run(SHOWN) == ["vehicles/ostrel-tansy-2017-hatch-base.html"]


SPOILT = ("#car=%E0%A4%A", "#car=nobody/x/0/y", "#car=////", "#ask=%", "#car=wexlow/quern/1900",
          "#&&==")  # fmt: skip


def test_a_spoilt_address_harms_nothing(browser, address):
    for spoilt in SPOILT:
        fresh(browser, address, f"index.html{spoilt}")
        ask(browser, "tansy switched")
        found = str(browser.run("return document.getElementById('finder').innerText"))
        assert "cavity 7" in found, spoilt
        assert browser.complaints() == [], spoilt


def test_the_question_which_car_is_answered_by_keyboard(browser, address):
    fresh(browser, address)
    field(browser).send_keys("quillan switched", Keys.ENTER)
    assert active(browser).text == "no"
    active(browser).send_keys(Keys.ENTER)
    assert active(browser).text == "no"
    active(browser).send_keys(Keys.ARROW_RIGHT)
    assert active(browser).text == "yes"
    active(browser).send_keys(Keys.ENTER)
    assert browser.run(SHOWN) == ["vehicles/quillan-lovage-2021-mid.html"]
    assert active(browser).text == "Start again"
    active(browser).send_keys(Keys.ARROW_DOWN)
    assert active(browser).get_attribute("href").endswith("quillan-lovage-2021-mid.html")
    active(browser).send_keys(Keys.ENTER)
    assert browser.driver.current_url.endswith("vehicles/quillan-lovage-2021-mid.html")


def test_recent_cars_are_kept_under_our_own_key(browser, address):
    fresh(browser, address)
    browser.run("localStorage.clear()")
    field(browser).send_keys("tansy")
    browser.driver.find_element("css selector", ".finder-car a").click()
    fresh(browser, address)
    recent = "return [...document.querySelectorAll('#finder-recent a')].map(a => a.textContent)"
    assert browser.run(recent) == ["Ostrel Tansy 2016–2019, hatch, base"]
    keys = browser.run("return Object.keys(localStorage)")
    assert keys and all(key.startswith("loombook:") for key in keys)
    for spoilt in ('{"a": 1}', "[[", '[1, null, "no-such-car"]'):
        browser.run("localStorage.setItem('loombook:finder:recent', arguments[0])", spoilt)
        fresh(browser, address)
        assert browser.run(recent) == []
        assert browser.complaints() == []
    browser.run("localStorage.clear()")


def test_it_works_where_storage_is_refused(browser, address):
    script = browser.driver.execute_cdp_cmd(
        "Page.addScriptToEvaluateOnNewDocument", {"source": NO_STORAGE}
    )
    try:
        fresh(browser, address)
        field(browser).send_keys("tansy")
        browser.run(
            "document.querySelector('.finder-car a')"
            ".addEventListener('click', event => event.preventDefault())"
        )
        browser.driver.find_element("css selector", ".finder-car a").click()
        field(browser).send_keys(" switched")
        assert "cavity 7" in str(browser.run("return document.getElementById('finder').innerText"))
        assert browser.complaints() == []
    finally:
        browser.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", script)


@pytest.mark.parametrize("where", ["", "#car=wexlow/quern", "#ask=quillan switched", "#ask=xyzzy"])
def test_everything_is_large_enough_and_fits_a_phone(browser, address, where):
    browser.resize(390)
    fresh(browser, address, f"index.html{where}")
    for width in (390, 360):
        browser.resize(width)
        small = browser.run(
            "return [...document.querySelectorAll('#finder-field, #finder button, #finder a')]"
            ".filter(n => n.offsetParent && (n.offsetHeight < 48 || n.offsetWidth < 48))"
            ".map(n => n.textContent)"
        )
        assert small == []
        assert browser.run("return document.documentElement.scrollWidth") <= width
        if not where:
            head_is_one_line(browser)


def head_is_one_line(browser):
    tops = browser.run("return [...document.querySelectorAll('.lb-nav a')].map(a => a.offsetTop)")
    sizes = browser.run(
        "return [...document.querySelectorAll('.lb-nav a')]"
        ".map(a => [a.offsetWidth, a.offsetHeight])"
    )
    assert len(tops) == 5
    assert len(set(tops)) == 1
    assert min(min(size) for size in sizes) >= 48
    assert browser.run("return document.querySelector('.lb-mark').textContent.trim()") == "loombook"


def test_a_car_outside_the_path_is_found_and_said_to_be_outside(browser, address):
    fresh(browser, address, "index.html#car=wexlow/quern&ask=tansy switched")
    assert browser.run(SHOWN) == ["vehicles/ostrel-tansy-2017-hatch-base.html"]
    said = browser.run("return document.getElementById('finder-status').textContent")
    assert said == "Not among the cars chosen, but in the book: 1 car fits."


@pytest.mark.parametrize(
    ("text", "said", "cars"),
    [
        ("wexlow rook", 'Nothing in this book fits. No Wexlow is called "rook"; Torvane has', 0),
        (
            "tasny swithced",
            '"swithced" read as "switched"; "tasny" read as "tansy". 1 car fits.',
            1,
        ),
    ],
)
def test_what_was_forgiven_and_why_nothing_fits_is_said(browser, address, text, said, cars):
    fresh(browser, address)
    ask(browser, text)
    assert said in browser.driver.find_element("id", "finder-status").text
    assert len(browser.run(SHOWN)) == cars
    assert browser.complaints() == []


def test_a_part_that_does_not_come_is_said(browser, address):
    fresh(browser, address)
    browser.run(
        "window.loombookFinder.load(window.loombookFinderData, []);"
        "window.loombookBook.data().parts = [0, 0];"  # a second part that no file holds
    )
    field(browser).send_keys("tansy")
    browser.driver.implicitly_wait(2)
    browser.driver.find_element("xpath", "//*[@id='finder-status'][contains(., 'could not')]")
    browser.driver.implicitly_wait(0)
    assert "own page" in str(browser.run("return document.getElementById('finder').innerText"))


def test_the_answers_call_a_private_record_private(browser, tmp_path):
    done = loombook("build", shop_book(tmp_path / "book"), "--output", tmp_path / "site")
    assert done.exit_code == 0, done.output
    fresh(browser, f"file://{tmp_path / 'site'}")
    field(browser).send_keys("ground")
    heads = browser.run(
        "return [...document.querySelectorAll('.finder-car')].map("
        "h => [h.firstChild.getAttribute('href'), h.textContent.endsWith(' private')])"
    )
    marked = dict(heads)
    assert marked[f"vehicles/{OWN_CAR}.html"] is True
    assert marked["vehicles/ostrel-brindle-2020.html"] is False

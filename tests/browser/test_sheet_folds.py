"""Long sheets of a job fold by their groups, and lose nothing by it."""

from __future__ import annotations

import pytest
from chromium import Browser
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.keys import Keys

pytestmark = pytest.mark.browser
SCREENS = {  # of the steps and of the readings, as the work begins: one group of them is open
    "tansy-subwoofer": (3.8, 5.0),
    "rook-two-amplifiers": (4.0, 6.2),
    "sedge-fronts": (6.0, 5.3),
}
SCREEN_PX = 844
_ROWS = "return [...document.querySelectorAll('{}')].filter(one => one.checkVisibility()).length"
STEPS, READINGS = _ROWS.format(".work-steps > li"), _ROWS.format("#tests tr[data-ask]")


@pytest.fixture
def phone(browser: Browser, address: str) -> Browser:
    browser.resize(390)
    browser.open(f"{address}/jobs/tansy-subwoofer.html#steps")
    browser.run("localStorage.clear()")
    browser.open("about:blank")
    browser.open(f"{address}/jobs/tansy-subwoofer.html#steps")
    return browser


@pytest.mark.parametrize("job", SCREENS)
def test_no_sheet_is_longer_than_what_is_to_be_done_now(
    browser: Browser, address: str, job: str
) -> None:
    browser.resize(390)
    browser.open(f"{address}/jobs/{job}.html#steps")
    height = "return document.documentElement.scrollHeight"
    steps = browser.run(height)
    browser.run("location.hash = '#tests'")
    found = (steps / SCREEN_PX, browser.run(height) / SCREEN_PX)  # type: ignore[operator]
    assert all(one <= most for one, most in zip(found, SCREENS[job], strict=True)), found


@pytest.mark.parametrize("job", ["rook-two-amplifiers", "sedge-fronts", "tansy-two-coils"])
def test_with_its_folds_shut_no_sheet_is_longer_than_four_screens(
    browser: Browser, address: str, job: str
) -> None:
    browser.resize(390)
    browser.open(f"{address}/jobs/{job}.html")
    sheets = browser.run("return [...document.querySelectorAll('section.sheet')].map(s => s.id)")
    assert isinstance(sheets, list) and len(sheets) > 8
    longest = {}
    for sheet in sheets:
        browser.run("location.hash = arguments[0]", f"#{sheet}")
        browser.fold()
        height = browser.run("return document.documentElement.scrollHeight")
        longest[sheet] = height / SCREEN_PX  # type: ignore[operator]
    assert {sheet: screens for sheet, screens in longest.items() if screens > 4} == {}


def test_the_wiring_is_drawn_whole_and_its_first_piece_large(phone: Browser) -> None:
    pieces = _ROWS.format(".wiring-piece svg")
    phone.run("location.hash = '#tap'")
    assert phone.run(pieces) == 1
    assert phone.run("return document.documentElement.scrollHeight") <= 4.5 * SCREEN_PX  # type: ignore[operator]
    phone.unfold()
    assert phone.run(pieces) >= 5  # type: ignore[operator]


def test_only_what_is_to_be_done_now_is_open(phone: Browser) -> None:
    shown = phone.run(STEPS)
    phone.unfold()
    assert 0 < shown < phone.run(STEPS)  # type: ignore[operator]
    phone.run("document.querySelectorAll('.step-group')[0].querySelectorAll('input:not(:checked)')"
              ".forEach(box => box.click())")  # fmt: skip
    phone.run("location.reload()")
    opened = "return [...document.querySelectorAll('.step-group')].findIndex("
    assert phone.run(f"{opened}group => !group.classList.contains('shut'))") == 1


def test_a_link_opens_the_group_that_it_leads_into(phone: Browser) -> None:
    last = phone.run("return [...document.querySelectorAll('#tests tr input')].pop().id")
    visible = "return document.getElementById(arguments[0]).checkVisibility()"
    phone.run("location.hash = '#tests'")
    assert phone.run(visible, last) is False
    phone.run("location.hash = '#' + arguments[0]", last)
    phone.run("return new Promise(done => setTimeout(done, 50))")
    assert phone.run(visible, last) is True


def test_a_key_folds_and_unfolds(phone: Browser) -> None:
    phone.run("document.querySelectorAll('#steps .group-fold')[1].focus()")
    before = phone.run(STEPS)
    ActionChains(phone.driver).send_keys(Keys.ENTER).perform()
    assert phone.run(STEPS) > before  # type: ignore[operator]
    ActionChains(phone.driver).send_keys(Keys.SPACE).perform()
    assert phone.run(STEPS) == before


def test_the_bay_and_paper_have_every_row(phone: Browser) -> None:
    many = phone.run("return document.querySelectorAll('.work-steps > li').length")
    phone.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    assert phone.run(STEPS) == many
    phone.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    phone.run("document.documentElement.classList.add('bay-mode')")
    assert phone.run(STEPS) == many


def test_the_lists_of_cables_fold_and_one_opens_for_a_link(phone: Browser) -> None:
    shut = "return [...document.querySelectorAll('#cables .sheet-part.shut')].length"
    labels = _ROWS.format("#labels svg")
    phone.run("location.hash = '#cables'")
    parts = phone.run("return document.querySelectorAll('#cables .sheet-part').length")
    assert (phone.run(shut), phone.run(labels)) == (parts - 1, 0)  # type: ignore[operator]
    phone.run("location.hash = '#labels'")
    assert phone.run(labels) > 0  # type: ignore[operator]
    phone.unfold()
    assert phone.run(shut) == 0

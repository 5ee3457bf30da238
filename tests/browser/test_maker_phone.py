"""The page "Add a car" in one hand, 390 px wide: a plug on one screen, two taps a wire."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from maker_page import MakerPage, choose_shell, describe_car, describe_plug
from test_maker_said import record, say

pytestmark = pytest.mark.browser

SCREEN = 900


@pytest.fixture
def page(browser: Any, address: str) -> Iterator[MakerPage]:
    made = MakerPage(browser, address).emptied()
    describe_car(made, "Heron", "hatch")
    browser.resize(390)
    describe_plug(made, "main plug", "radio")
    choose_shell(made, 0, 20, "20-cavity radio housing, two rows of ten")
    yield made
    browser.resize(1280)


def bottom(page: MakerPage, chosen: str) -> float:
    """How far down the screen something ends."""
    found = "return document.querySelector(arguments[0]).getBoundingClientRect().bottom"
    return float(page.browser.run(found, chosen))


def settle(page: MakerPage) -> None:
    page.browser.driver.execute_async_script("setTimeout(arguments[0], 100)")


def test_the_whole_plug_stands_on_the_first_screen(page: MakerPage) -> None:
    page.browser.run("window.scrollTo(0, 0)")
    bar = page.browser.run("return document.querySelector('.maker-face svg').clientHeight > 150")
    assert bar is True
    assert bottom(page, ".maker-face svg") < SCREEN - 60  # the bar at the foot covers 60


def test_line_and_chips_of_a_cavity_stand_on_one_screen(page: MakerPage) -> None:
    page.cavity("7")
    settle(page)
    top = "return document.getElementById('maker-pin').getBoundingClientRect().top"
    assert float(page.browser.run(top)) >= 0
    assert (
        bottom(page, ".maker-said > .maker-choices") - float(page.browser.run(top)) < SCREEN - 120
    )


def test_after_a_tap_the_drawing_is_there_as_it_was_pushed(page: MakerPage) -> None:
    push = "const s = document.querySelector('.maker-scroll'); s.scrollLeft = 150;"
    page.browser.run(push)
    settle(page)
    page.cavity("20")
    page.press("ground")
    settle(page)
    left = page.browser.run("return document.querySelector('.maker-scroll').scrollLeft")
    assert left == page.browser.run(f"{push} return s.scrollLeft")
    assert left > 50
    assert 0 < bottom(page, ".maker-face svg") <= SCREEN


def test_a_chip_takes_the_colours_of_the_line_along(page: MakerPage) -> None:
    page.cavity("1")
    assert say(page, "yellow with red 0,75") == "yellow with red, 0.75 mm²"
    page.press("constant supply")
    wire = {"base": "yellow", "stripe": "red", "size_mm2": 0.75}
    assert record(page)["plugs"][0]["pins"] == [{"cavity": 1, "function": "constant", "wire": wire}]


def test_a_line_that_is_not_understood_is_not_lost_by_a_chip(page: MakerPage) -> None:
    page.cavity("1")
    say(page, "some colour or other")
    page.press("constant supply")
    assert record(page)["plugs"][0]["pins"] == [{"cavity": 1}]
    kept = page.browser.run("return document.getElementById('maker-say').value")
    assert kept == "some colour or other"


def test_a_cavity_that_was_only_opened_is_not_in_the_record(page: MakerPage) -> None:
    page.cavity("1")
    page.press("maker-pin-done")
    assert record(page)["plugs"][0]["pins"] == []
    page.cavity("2")
    page.browser.driver.refresh()
    page.press("Open Ardent Heron 2019 hatch")
    page.step("Plugs")
    page.press("Open plug A")
    rows = page.browser.run("return document.querySelectorAll('.maker-pins tbody tr').length")
    assert rows == 0


def test_housings_are_shown_once_their_cavities_are_counted(page: MakerPage) -> None:
    page.press("maker-all-plugs")
    page.press("maker-add-plug")
    shown = "return document.querySelectorAll('.maker-shell-list li').length"
    assert page.browser.run(shown) == 0
    name = page.browser.run("return document.getElementById('maker-vehicle-plugs-1-name').value")
    assert name == "plug B"

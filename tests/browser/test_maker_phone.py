"""The page "Take down a car" in one hand, 390 px wide: a plug on one screen, two taps a wire."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from maker_page import MakerPage, choose_shell, describe_car, describe_plug
from test_maker_said import record, say

pytestmark = pytest.mark.browser


@pytest.fixture
def page(browser: Any, address: str) -> Iterator[MakerPage]:
    made = MakerPage(browser, address).emptied()
    describe_car(made, "Heron", "hatch")
    browser.resize(390)
    describe_plug(made, "main plug", "radio")
    choose_shell(made, 0, 20, "20-cavity radio housing, two rows of ten")
    yield made
    browser.resize(1280)


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

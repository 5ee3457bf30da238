"""A cavity of the page "Take down a car" in two taps, or in one line typed or spoken."""

from __future__ import annotations

from typing import Any

import pytest
from maker_page import EIGHT, MakerPage, with_a_plug

pytestmark = pytest.mark.browser


@pytest.fixture
def page(browser: Any, address: str) -> MakerPage:
    return with_a_plug(browser, address, EIGHT)


def say(page: MakerPage, line: str) -> str:
    """Type a line; what the page heard."""
    return str(
        page.browser.run(
            "const n = document.getElementById('maker-say'); n.value = arguments[0];"
            "n.dispatchEvent(new Event('input'));"
            "return document.getElementById('maker-heard').textContent",
            line,
        )
    )


def record(page: MakerPage) -> Any:
    """The newest draft as this browser keeps it."""
    return page.browser.run(
        "const key = Object.keys(localStorage).find(k => k.startsWith('loombook:maker:draft:'));"
        "return JSON.parse(localStorage.getItem(key)).record"
    )


def test_two_taps_describe_a_wire(page: MakerPage) -> None:
    page.cavity("1")
    page.press("constant supply")
    page.cavity("2")
    page.press("speaker front left positive")
    page.cavity("3")
    page.press("no terminal in it")
    (plug,) = record(page)["plugs"]
    assert plug["pins"] == [
        {"cavity": 1, "function": "constant"},
        {"cavity": 2, "function": "speaker", "channel": "front-left", "leg": "positive"},
    ]
    assert plug["empty"] == [3]


@pytest.mark.parametrize(
    ("line", "heard", "pin"),
    [
        (
            "accessory yellow with red stripe",
            "accessory supply, yellow with red",
            {"function": "accessory", "wire": {"base": "yellow", "stripe": "red"}},
        ),
        (
            "LF- wht/blk",
            "speaker front left negative, white with black",
            {
                **{"function": "speaker", "channel": "front-left", "leg": "negative"},
                "wire": {"base": "white", "stripe": "black"},
            },
        ),
        ("GND", "ground", {"function": "ground"}),
    ],
)
def test_a_line_is_shown_as_understood_and_taken(
    page: MakerPage, line: str, heard: str, pin: dict[str, Any]
) -> None:
    page.cavity("1")
    assert say(page, line) == heard
    page.press("maker-say-take")
    assert record(page)["plugs"][0]["pins"] == [{"cavity": 1, **pin}]


def test_a_word_of_two_meanings_is_asked_back_by_buttons(page: MakerPage) -> None:
    page.cavity("1")
    assert say(page, "ign bl/rd") == "“ign” could be run or accessory:"
    page.press("maker-say-take")  # nothing is taken yet
    assert record(page)["plugs"][0]["pins"] == [{"cavity": 1}]
    page.press("run supply")
    page.press("black")
    page.press("maker-say-take")
    assert record(page)["plugs"][0]["pins"] == [
        {"cavity": 1, "function": "run", "wire": {"base": "black", "stripe": "red"}}
    ]


@pytest.mark.parametrize("line", ["acc mauve", "front left white", "speaker", "wht/blk/red acc"])
def test_what_is_not_understood_is_said_and_not_taken(page: MakerPage, line: str) -> None:
    page.cavity("1")
    assert say(page, line)
    page.press("maker-say-take")
    assert record(page)["plugs"][0]["pins"] == [{"cavity": 1}]


def test_another_word_replaces_what_was_said_before(page: MakerPage) -> None:
    page.cavity("1")
    say(page, "fl+ white")
    page.press("maker-say-take")
    page.cavity("1")
    say(page, "acc yel/red")
    page.press("maker-say-take")
    assert record(page)["plugs"][0]["pins"] == [
        {"cavity": 1, "function": "accessory", "wire": {"base": "yellow", "stripe": "red"}}
    ]


def test_a_line_is_reached_and_taken_on_a_small_screen(page: MakerPage) -> None:
    page.browser.resize(390)
    page.cavity("1")
    wide = page.browser.run("return document.documentElement.scrollWidth")
    assert wide <= 390
    say(page, "acc yel")
    page.press("maker-say-take")
    page.browser.resize(1280)
    assert record(page)["plugs"][0]["pins"][0]["function"] == "accessory"

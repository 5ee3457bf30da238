"""The page "Take down a car": every change is taken back and done again, also after a reload."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from maker_page import MakerPage, choose_shell, describe_car, describe_plug, describe_rest

pytestmark = pytest.mark.browser


@pytest.fixture
def page(browser: Any, address: str) -> MakerPage:
    made = MakerPage(browser, address).emptied()
    describe_car(made, "Heron", "hatch")
    describe_rest(made)
    describe_plug(made, "main plug", "radio")
    choose_shell(made, 0, 20, "20-cavity radio housing, two rows of ten")
    return made


def record(page: MakerPage) -> Any:
    """The draft as this browser keeps it."""
    return page.browser.run(
        "const key = Object.keys(localStorage).find(k => k.startsWith('loombook:maker:draft:'));"
        "return JSON.parse(localStorage.getItem(key)).record"
    )


def typed(page: MakerPage, name: str, text: str) -> None:
    page.browser.run(
        "const n = document.getElementById(arguments[0]); n.focus(); n.value = arguments[1];"
        "n.dispatchEvent(new Event('input', {bubbles: true}))",
        name,
        text,
    )


def keys(page: MakerPage, key: str, *, shift: bool = False) -> None:
    """Press a key with Ctrl where the focus is."""
    page.browser.run(
        "(document.activeElement || document.body).dispatchEvent(new KeyboardEvent('keydown',"
        "{key: arguments[0], ctrlKey: true, shiftKey: arguments[1], bubbles: true}))",
        key,
        shift,
    )


def tapped(page: MakerPage) -> None:
    page.cavity("1")
    page.press("constant supply")


def spoken(page: MakerPage) -> None:
    page.cavity("2")
    typed(page, "maker-say", "fl+ white")
    page.press("maker-say-take")


def pasted(page: MakerPage) -> None:
    typed(page, "maker-paste", "4 acc red\n5 gnd black")
    page.press("maker-paste-take")


def emptied(page: MakerPage) -> None:
    page.cavity("6")
    page.press("no terminal in it")


def reading(page: MakerPage) -> None:
    page.cavity("1")
    page.reading("plugs.0.pins.0.readings", "run 12.1 V battery 12.4")


def unsaid(page: MakerPage) -> None:
    page.cavity("1")
    page.press("Say nothing of it")


def removed(page: MakerPage) -> None:
    page.press("maker-all-plugs")
    page.press("Remove plug A")


CHANGES: tuple[Callable[[MakerPage], None], ...] = (
    *(tapped, spoken, pasted, emptied, reading, unsaid, removed),
)


def test_each_way_of_changing_is_taken_back_and_done_again(page: MakerPage) -> None:
    states = [record(page)]
    for change in CHANGES:
        change(page)
        states.append(record(page))
        assert states[-1] != states[-2], change.__name__
    for state in reversed(states[:-1]):
        while record(page) != state:
            page.press("maker-undo")
    for state in states[1:]:
        while record(page) != state:
            page.press("maker-redo")
    hidden = page.browser.run("return document.getElementById('maker-redo').hidden")
    assert hidden is True
    assert page.browser.complaints() == []


def test_a_tap_is_one_change_and_a_cavity_opened_by_mistake_is_none(page: MakerPage) -> None:
    before = record(page)
    tapped(page)
    after = record(page)
    page.cavity("2")  # the wrong one
    page.press("maker-undo")
    assert record(page) == after
    page.press("maker-undo")
    assert record(page) == before
    status = page.browser.run("return document.getElementById('maker-status').textContent")
    assert "Taken back: plug A" in str(status)


def test_it_goes_back_after_a_reload(page: MakerPage) -> None:
    before = record(page)
    tapped(page)
    after = record(page)
    page.browser.driver.refresh()
    page.press("Open Ardent Heron 2019 hatch")
    page.press("maker-undo")
    assert record(page) == before
    page.browser.driver.refresh()
    page.press("Open Ardent Heron 2019 hatch")
    page.press("maker-redo")
    assert record(page) == after


def test_keys_go_back_but_not_while_a_field_is_typed_in(page: MakerPage) -> None:
    before = record(page)
    tapped(page)
    keys(page, "z")
    assert record(page) == before
    keys(page, "z", shift=True)
    assert record(page) != before
    keys(page, "z")
    page.step("The car")
    typed(page, "maker-vehicle-variant", "hatchback")
    keys(page, "z")  # the browser's own, in the field
    assert record(page)["variant"] == "hatchback"
    page.browser.run("document.activeElement.blur()")
    keys(page, "z")
    assert record(page)["variant"] == "hatch"


def test_typing_in_one_field_is_one_change(page: MakerPage) -> None:
    page.step("The car")
    for text in ("h", "ha", "hat", "hatch five"):
        typed(page, "maker-vehicle-variant", text)
    page.press("maker-undo")
    assert record(page)["variant"] == "hatch"


def test_a_deleted_draft_comes_back_with_its_changes(page: MakerPage) -> None:
    before = record(page)
    tapped(page)
    after = record(page)
    page.press("maker-leave")
    page.press("Delete")
    page.press("Really delete?")
    page.browser.driver.refresh()
    page.press("Bring back Ardent Heron 2019 hatch")
    page.press("Open Ardent Heron 2019 hatch")
    assert record(page) == after
    page.press("maker-undo")
    assert record(page) == before


def test_where_nothing_is_kept_it_goes_back_all_the_same(page: MakerPage) -> None:
    page.browser.run("Storage.prototype.setItem = () => { throw new Error('refused'); }")
    page.cavity("1")
    page.press("constant supply")
    pins = "return document.querySelectorAll('.maker-pins tbody tr').length"
    assert page.browser.run(pins) == 1
    page.press("maker-undo")
    assert page.browser.run(pins) == 0

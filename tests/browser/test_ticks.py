"""Ticks belong to one page in one state of its record, and say so when that has changed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from shipped_book import PINOUTS, loombook

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
CAR = "ostrel-kavo-2017-hatch-base"
PLAN = f"plans/{CAR}--cv-2a.html"
REFUSING = (
    "Object.defineProperty(window, 'localStorage',"
    " {get() { throw new DOMException('no', 'SecurityError'); }})"
)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    folder = tmp_path / "book"
    for kind in ("housings", "converters"):
        shutil.copytree(PINOUTS / kind, folder / kind)
    shutil.copytree(PINOUTS / "vehicles" / "ostrel", folder / "vehicles" / "ostrel")
    return folder


@pytest.fixture
def plan(book: Path, browser: Browser) -> Iterator[str]:
    """The address of a plan of a fresh site, opened from files, with nothing ticked yet."""
    address = f"file://{build(book)}/{PLAN}"
    browser.open(address)
    browser.run("localStorage.clear()")
    browser.open(address)
    yield address
    browser.run("try { localStorage.clear() } catch (refused) {}")


def build(book: Path) -> Path:
    site = book.parent / "site"
    done = loombook("build", book, "--output", site)
    assert done.exit_code == 0, done.output
    return site


def change(book: Path, pattern: str, new: str) -> None:
    record = book / "vehicles" / "ostrel" / f"{CAR}.yaml"
    text, times = re.subn(pattern, new, record.read_text("utf-8"), count=1, flags=re.M)
    assert times == 1
    record.write_text(text, "utf-8")


def boxes(browser: Browser) -> list[str]:
    found = browser.run(
        "return [...document.querySelectorAll('[data-ticks] input[type=checkbox]')]"
        ".map(box => box.id)"
    )
    assert isinstance(found, list)
    assert len(found) >= 3
    return found


def tick(browser: Browser, *ids: str) -> None:
    for box in ids:
        browser.run("document.getElementById(arguments[0]).click()", box)


def ticked(browser: Browser) -> list[str]:
    found = browser.run("return [...document.querySelectorAll('input:checked')].map(b => b.id)")
    assert isinstance(found, list)
    return [one for one in found if not one.startswith("__")]


def notes(browser: Browser) -> str:
    return str(
        browser.run(
            "return [...document.querySelectorAll('.tick-note')].map(n => n.innerText).join()"
        )
    )


def test_ticks_stay_when_the_page_is_opened_again(browser: Browser, plan: str) -> None:
    first, second, third = boxes(browser)[:3]
    tick(browser, first, second, third, second)
    browser.open(plan)
    assert ticked(browser) == [first, third]
    assert notes(browser) == ""


@pytest.mark.parametrize(
    ("pattern", "new"),
    [(r"^variant: .*$", "variant: another"), (r"\A", "# a remark\n")],
    ids=["content", "remark"],
)
def test_ticks_for_an_earlier_version_are_told_and_not_applied(
    browser: Browser, plan: str, book: Path, pattern: str, new: str
) -> None:
    many = boxes(browser)
    tick(browser, *many[:2])
    words = str(
        browser.run(
            "return document.getElementById(arguments[0]).closest('label').innerText", many[0]
        )
    )
    change(book, pattern, new)
    build(book)
    browser.open(plan)
    assert ticked(browser) == []
    assert "Ticked for an earlier version of this record" in notes(browser)
    assert f"2 of {len(many)}. They are not applied here." in notes(browser)
    browser.run("document.querySelector('.ticks-earlier details').open = true")
    listed = browser.run("return document.querySelector('.ticks-earlier li').textContent")
    assert "".join(str(listed).split())[:40] == "".join(words.split())[:40]
    assert browser.complaints() == []


def test_ticks_for_an_earlier_version_can_be_cleared(
    browser: Browser, plan: str, book: Path
) -> None:
    many = boxes(browser)
    tick(browser, many[0])
    change(book, r"^variant: .*$", "variant: another")
    build(book)
    browser.open(plan)
    tick(browser, many[1])
    browser.run("document.querySelector('.ticks-earlier button').click()")
    assert notes(browser) == ""
    browser.open(plan)
    assert notes(browser) == ""
    assert ticked(browser) == [many[1]]


def test_ticks_come_back_with_the_record_they_were_made_for(
    browser: Browser, plan: str, book: Path
) -> None:
    record = book / "vehicles" / "ostrel" / f"{CAR}.yaml"
    text = record.read_text("utf-8")
    first = boxes(browser)[0]
    tick(browser, first)
    change(book, r"^variant: .*$", "variant: another")
    build(book)
    record.write_text(text, "utf-8")
    build(book)
    browser.open(plan)
    assert ticked(browser) == [first]


def test_another_book_with_the_same_records_has_ticks_of_its_own(
    browser: Browser, plan: str, book: Path
) -> None:
    tick(browser, boxes(browser)[0])
    (book / "book.yaml").write_text("schema: 1\nsite_name: Other shop\n", "utf-8")
    build(book)
    browser.open(plan)
    assert ticked(browser) == []
    assert notes(browser) == ""


def test_without_storage_ticks_last_for_the_visit_and_the_page_says_so(
    browser: Browser, plan: str
) -> None:
    added = browser.driver.execute_cdp_cmd(
        "Page.addScriptToEvaluateOnNewDocument", {"source": REFUSING}
    )
    try:
        browser.open(plan)
        assert "keeps no ticks" in notes(browser)
        first = boxes(browser)[0]
        tick(browser, first)
        assert ticked(browser) == [first]
        assert browser.complaints() == []
    finally:
        browser.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", added)
        browser.open(plan)


def test_a_store_that_holds_nonsense_harms_nothing(browser: Browser, plan: str) -> None:
    key = str(browser.run("return document.querySelector('[data-ticks]').dataset.ticks"))
    for name in (key, key.rpartition(":")[0] + ":older"):
        browser.run("localStorage.setItem('loombook:ticks:' + arguments[0], '[1')", name)
    browser.open(plan)
    assert (ticked(browser), notes(browser)) == ([], "")
    tick(browser, boxes(browser)[0])
    browser.open(plan)
    assert len(ticked(browser)) == 1
    assert browser.complaints() == []

"""Ticks belong to one page in one state of its plan, and say so when that has changed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from shipped_book import PINOUTS, loombook
from shipped_cars import copy_car

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
CAR = "ostrel-tansy-2017-hatch-base"
PLAN = f"plans/{CAR}--cvn-2a.html"
REFUSING = (
    "Object.defineProperty(window, 'localStorage',"
    " {get() { throw new DOMException('no', 'SecurityError'); }})"
)


CHANGES = {
    "as it was": ("", ""),
    "content": (r"green, stripe: white", "green, stripe: blue"),
    "remark": (r"\A", "# a remark\n"),
}


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The sites of a small book: as it was, after each change, and of another shop."""
    folder = tmp_path_factory.mktemp("ticks")
    book = folder / "book"
    shutil.copytree(PINOUTS / "housings", book / "housings")
    (book / "converters").mkdir()
    shutil.copy(PINOUTS / "converters" / "cvn-2a.yaml", book / "converters")
    record = copy_car(book, CAR)
    text, built = record.read_text("utf-8"), {}
    for name, (pattern, new) in CHANGES.items():
        changed, times = re.subn(pattern, new, text, count=1, flags=re.M)
        assert times == 1
        record.write_text(changed, "utf-8")
        built[name] = build(book, folder / name)
    record.write_text(text, "utf-8")
    (book / "book.yaml").write_text("schema: 1\nsite_name: Other shop\n", "utf-8")
    return built | {"other shop": build(book, folder / "other shop")}


class Shown:
    """One address, at which one of the sites stands at a time."""

    def __init__(self, place: Path, sites: dict[str, Path]) -> None:
        self._place, self._sites = place, sites
        self.plan = f"file://{place}/{PLAN}"
        self.becomes("as it was")

    def becomes(self, name: str) -> None:
        self._place.unlink(missing_ok=True)
        self._place.symlink_to(self._sites[name])


@pytest.fixture
def shown(sites: dict[str, Path], browser: Browser, tmp_path: Path) -> Iterator[Shown]:
    """A plan, opened from files, with nothing ticked yet."""
    found = Shown(tmp_path / "site", sites)
    browser.open(found.plan)
    yield found
    browser.run("try { localStorage.clear() } catch (refused) {}")


@pytest.fixture
def plan(shown: Shown) -> str:
    return shown.plan


def build(book: Path, site: Path) -> Path:
    done = loombook("build", book, "--output", site)
    assert done.exit_code == 0, done.output
    return site


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


def test_ticks_stay_while_the_plan_says_the_same(browser: Browser, shown: Shown) -> None:
    first = boxes(browser)[0]
    tick(browser, first)
    shown.becomes("remark")
    browser.open(shown.plan)
    assert (ticked(browser), notes(browser)) == ([first], "")


def test_ticks_for_an_earlier_version_are_told_and_not_applied(
    browser: Browser, shown: Shown
) -> None:
    many = boxes(browser)
    tick(browser, *many[:2])
    words = str(
        browser.run(
            "return document.getElementById(arguments[0]).closest('label').innerText", many[0]
        )
    )
    shown.becomes("content")
    browser.open(shown.plan)
    assert ticked(browser) == []
    assert "Ticked for an earlier version of this plan" in notes(browser)
    assert f"2 of {len(many)}. They are not applied here." in notes(browser)
    browser.run("document.querySelector('.ticks-earlier details').open = true")
    listed = browser.run("return document.querySelector('.ticks-earlier li').textContent")
    assert "".join(str(listed).split())[:40] == "".join(words.split())[:40]
    assert browser.complaints() == []


def test_ticks_for_an_earlier_version_can_be_cleared(browser: Browser, shown: Shown) -> None:
    many = boxes(browser)
    tick(browser, many[0])
    shown.becomes("content")
    browser.open(shown.plan)
    tick(browser, many[1])
    browser.run("document.querySelector('.ticks-earlier button').click()")
    assert notes(browser) == ""
    browser.open(shown.plan)
    assert notes(browser) == ""
    assert ticked(browser) == [many[1]]


def test_ticks_come_back_with_the_plan_they_were_made_for(browser: Browser, shown: Shown) -> None:
    first = boxes(browser)[0]
    tick(browser, first)
    shown.becomes("content")
    browser.open(shown.plan)
    assert ticked(browser) == []
    shown.becomes("as it was")
    browser.open(shown.plan)
    assert ticked(browser) == [first]


def test_another_book_with_the_same_records_has_ticks_of_its_own(
    browser: Browser, shown: Shown
) -> None:
    tick(browser, boxes(browser)[0])
    shown.becomes("other shop")
    browser.open(shown.plan)
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

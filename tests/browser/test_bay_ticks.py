"""Steps ticked on one phone, on another one and on paper: they travel with the evidence."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from evidence_book import JOB, job_file, small_book
from printing import TO_TEXT, print_page
from shipped_book import loombook
from test_bay_mode import begin, now, onward
from test_bay_sheet import address, build, choose, exported, of_sheet

from builder.book import open_book
from builder.pipeline.answers.packs import packed
from builder.planning.job.ticked import step_name, steps_done

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
    pytest.mark.skipif(TO_TEXT is None, reason="pdftotext is not installed"),
]
TICKED = (
    "return [...document.querySelectorAll('li[data-lines] input')].filter(b => b.checked).length"
)
UNTICK = """
const box = document.querySelectorAll('li[data-lines] input')[arguments[0]];
box.checked = false;
box.dispatchEvent(new Event('change'));
"""
DONE = 6


@pytest.fixture
def book(tmp_path: Path) -> Path:
    folder = small_book(tmp_path / "book")
    begun = ("begin", JOB, "--by", "third-bay", "--date", "2026-11-28", "--book", folder)
    assert loombook(*begun).exit_code == 0
    build(folder)
    return folder


@pytest.fixture
def phone(book: Path, browser: Browser) -> Iterator[Browser]:
    yield fresh(browser, book, book.parent / "first")
    browser.run("localStorage.clear()")


def fresh(browser: Browser, book: Path, folder: Path) -> Browser:
    """A phone that was never there."""
    folder.mkdir()
    browser.as_phone(folder)
    browser.open(address(book))
    browser.run("localStorage.clear()")
    browser.driver.refresh()
    return browser


def worked_to(browser: Browser, steps: int) -> None:
    """Tick each step, leave each line open, until so many steps are done."""
    while browser.run(TICKED) < steps:
        onward(browser)


def test_another_phone_and_paper_show_what_one_phone_ticked(book: Path, phone: Browser) -> None:
    choose(phone, "by", "third-bay")
    begin(phone)
    worked_to(phone, DONE)
    came = of_sheet(exported(phone, book.parent / "first"))
    steps = packed(open_book(book), JOB).pack.steps
    assert [tick["at"] for tick in came["ticked"]] == [step_name(step) for step in steps[:DONE]]
    added(book, book.parent / "first")
    other = fresh(phone, book, book.parent / "second")
    assert other.run(TICKED) == DONE
    begin(other)
    assert now(other)["step"] == DONE + 1
    text = print_page(other, "A4", book.parent / "job.pdf").running
    assert text.count("Ticked2") == DONE
    other.run(UNTICK, 0)
    other.driver.refresh()
    assert other.run(TICKED) == DONE - 1
    choose(other, "by", "alder-pit-audio")
    sent = of_sheet(exported(other, book.parent / "second"))
    assert [tick["done"] for tick in sent["ticked"]] == ["no", *["yes"] * (DONE - 1)]
    added(book, book.parent / "second")
    made = packed(open_book(book), JOB)
    assert sorted(steps_done(steps, made.parts.job.ticked)) == list(range(2, DONE + 1))
    assert job_file(book).read_text("utf-8").count("done: no") == 1


def added(book: Path, folder: Path) -> None:
    sheet = next(folder.glob("bay-sheet-*.yaml"))
    done = loombook("evidence", "add", sheet, "--book", book)
    assert "written:" in done.output, done.output
    build(book)

"""A large book: no answer fetches more than a bounded part of it, and what is left out is said."""

from __future__ import annotations

import pytest
from benchmarks.generated_entries import made_entries
from chromium import Browser
from finder_page import open_finder

from builder.finder import tables
from builder.pipeline.site.finder_files import finder_data_of

pytestmark = pytest.mark.browser

MOST_PARTS = 32
SEARCH = """
  return arguments[0].map(text => {
    const found = window.loombookFinder.search(text);
    return [found.found.length, found.need.length, found.unread, found.missed];
  });
"""
TYPE = """
  const field = document.getElementById("finder-field");
  field.value = arguments[0];
  field.dispatchEvent(new Event("input"));
  return document.getElementById("finder-status").textContent;
"""


@pytest.fixture
def large(browser: Browser, address: str, monkeypatch: pytest.MonkeyPatch) -> Browser:
    """The finder of a book whose parts hold a model each, none of them fetched."""
    monkeypatch.setattr(tables, "MOST_IN_PART", 1)
    data = finder_data_of(made_entries(900))
    assert len(data.parts) > 2 * MOST_PARTS
    open_finder(browser, address)
    browser.run("window.loombookFinder.load(arguments[0], [])", data.book)
    return browser


def test_a_wire_of_any_car_is_not_looked_for_in_the_whole_book(large: Browser) -> None:
    ((found, need, unread, missed),) = large.run(SEARCH, ["red/black"])  # type: ignore[misc]
    assert (found, need, missed) == (0, 0, "")
    assert "add a make, a model or a year" in unread
    assert large.run(TYPE, "red/black") == unread


def test_a_wire_of_a_named_car_is(large: Browser) -> None:
    car = made_entries(900)[0]
    text = f"{car.make} {car.model} red/black"
    ((found, need, unread, _),) = large.run(SEARCH, [text])  # type: ignore[misc]
    assert (found, unread) == (0, "") and 1 <= need <= 2  # fetched, and then answered


def test_what_the_index_knows_is_answered_of_every_car(large: Browser) -> None:
    asked = ["hatch", "switched", "2010", "4"]
    for found, need, unread, _ in large.run(SEARCH, asked):  # type: ignore[union-attr, misc]
        assert found > 100 and (need, unread) == (0, "")

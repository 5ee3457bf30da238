"""Old addresses in a browser, and old ids in the finder of the page."""

from __future__ import annotations

from pathlib import Path

import pytest
from chromium import Browser
from finder_page import core_replies, load_entries, open_finder, page_replies
from moving_site import until
from shipped_book import PINOUTS

from builder.book import open_book
from builder.finder.entries import Entry
from builder.pipeline.answers.kept_entries import finder_entries
from builder.rendering.pages.moved import moved_document

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def entries() -> list[Entry]:
    return finder_entries(open_book(PINOUTS))


@pytest.mark.parametrize("served", [True, False], ids=["from a server", "from a file"])
def test_an_old_address_leads_on_by_itself(
    browser: Browser, tmp_path: Path, entries: list[Entry], site: Path, address: str, served: bool
) -> None:
    """The new page stands beside the old address, as in every site."""
    name = entries[0].id
    old = site / "vehicles" / "moved-for-a-test.html"
    old.write_text(moved_document("moved-for-a-test", name, f"{name}.html"), "utf-8")
    try:
        start = address if served else site.as_uri()
        browser.open(f"{start}/vehicles/{old.name}")
        until(lambda: str(browser.driver.current_url).endswith(f"/{name}.html"))
        until(lambda: browser.run("return !!document.getElementById('answers')"))
        assert browser.complaints() == []
    finally:
        old.unlink()


def test_page_and_command_read_old_ids_alike(
    browser: Browser, address: str, entries: list[Entry]
) -> None:
    first, second = entries[0].id, entries[-1].id
    renamed = {"old-car-2016": first, "older-car": second}
    texts = [
        "old-car-2016",
        "Old-Car-2016 switched",
        "older-car, old-car-2016 older-car",
        "old-car",
    ]
    texts += ["not-old-car-2016", "older-car constant zzz", "__proto__ to-string"]
    open_finder(browser, address)
    load_entries(browser, entries, renamed)
    expected = core_replies(texts, entries, renamed)
    assert page_replies(browser, texts) == expected
    assert expected[0][1] == f'"old-car-2016" read as "{first}".'
    assert [bool(read) for read, *_ in expected[:3]] == [True] * 3

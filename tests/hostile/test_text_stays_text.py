"""Whatever a contributor types stands on the pages as typed, and does nothing."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from chromium import Browser
from hostile_book import INERT, KINDS, HostileBook
from samples import LONG
from site_folder import plain_cell

from builder.editing.short_forms import written_out
from builder.rendering.pins_csv import RUNS

pytestmark = pytest.mark.browser

# Fields that no page shows yet, or not of every record; the data files hold them.
UNSHOWN = {"generation", "photos", "routes"}

# What no page of ours has, and what would run, load or restyle something.
_LOOK = """
const bad = [];
for (const one of document.querySelectorAll("*")) {
  const name = one.localName;
  if (["iframe", "object", "embed", "base", "style", "frame", "animate", "foreignObject"]
      .includes(name)) bad.push(name);
  if (name === "meta" && /refresh/i.test(one.httpEquiv)) bad.push("refresh");
  if (name === "form" && one.id !== "identify-form") bad.push("form");
  for (const {name: key, value} of one.attributes) {
    if (/^on/i.test(key) || key === "style" || key === "autofocus") bad.push(key);
    if (/(^|:)(href|src|action|data|formaction)$/.test(key) &&
        !/^(https?:|mailto:|file:|[^:]*$|[^:]*[?#])/i.test(value)) bad.push(value);
  }
}
return {
  ran: window.ran === undefined ? "" : "ran",
  bad: bad,
  colour: getComputedStyle(document.querySelector(".lb-footer")).color,
  sheets: document.styleSheets.length,
  twice: document.querySelectorAll("[id=content]").length,
  text: document.documentElement.textContent + " " + document.title,
};
"""


class Seen(NamedTuple):
    """One page in the browser: what was found wrong, who else was asked, its text."""

    url: str
    found: dict[str, object]
    foreign: list[str]
    complaints: list[str]

    @property
    def text(self) -> str:
        return " ".join(str(self.found["text"]).split())


def pages_with_text(site: Path) -> list[str]:
    """Every page that holds text of the book beyond its name."""
    pages = sorted(site.rglob("*.html"))
    urls = [page.relative_to(site).as_posix() for page in pages]
    return [
        url
        for url, page in zip(urls, pages, strict=True)
        if re.search(r" q\d+q", page.read_text("utf-8")) or url in ("index.html", "identify.html")
    ]


def pages_for_each_text(site: Path) -> list[str]:
    """The fullest page of each kind, and fuller pages first those that hold a text no other has.

    One template writes all pages of a kind, so that it is seen with texts of every sort. The long
    form takes every page.
    """
    urls = pages_with_text(site)
    if LONG:
        return urls
    chosen = one_of_each_kind(site)
    held = {url: set(re.findall(r" q\d+q", (site / url).read_text("utf-8"))) for url in urls}
    seen = set().union(*(held[url] for url in chosen))
    for url in sorted(urls, key=lambda url: -len(held[url])):
        if held[url] - seen:
            chosen.append(url)
            seen |= held[url]
    return chosen


def one_of_each_kind(site: Path) -> list[str]:
    """For each folder the page with the most in it, and the pages of the root."""
    kinds: dict[str, list[str]] = {}
    for url in pages_with_text(site):
        kinds.setdefault(url.rpartition("/")[0] or url, []).append(url)
    return [max(urls, key=lambda url: (site / url).stat().st_size) for urls in kinds.values()]


def visit(browser: Browser, start: str, urls: list[str], own: tuple[str, ...]) -> Iterator[Seen]:
    for url in urls:
        browser.open(f"{start}/{url}", listening=True)
        found = browser.run(_LOOK)
        assert isinstance(found, dict)
        foreign = [asked for asked in browser.requested() if not asked.startswith(own)]
        yield Seen(url, found, foreign, browser.complaints())


@pytest.fixture(scope="module")
def over_http(browser: Browser, site: Path, address: str) -> list[Seen]:
    """Pages over http without the policy, so that nothing but the escapes protects."""
    browser.driver.execute_cdp_cmd("Page.enable", {})
    browser.driver.execute_cdp_cmd("Page.setBypassCSP", {"enabled": True})
    try:
        return list(visit(browser, address, pages_for_each_text(site), (address,)))
    finally:
        browser.driver.execute_cdp_cmd("Page.setBypassCSP", {"enabled": False})


def test_the_site_of_the_hostile_book_is_a_whole_site(site: Path) -> None:
    urls = pages_with_text(site)
    for folder in ("plans", *(KINDS.keys() - {"visits"})):  # told of on their vehicles' pages
        assert [url for url in urls if url.startswith(f"{folder}/")], folder
    assert len(urls) > 40


def test_nothing_runs_or_loads_or_restyles_even_without_the_policy(over_http: list[Seen]) -> None:
    colours = {str(seen.found["colour"]) for seen in over_http}
    sheets = {seen.found["sheets"] for seen in over_http}
    for seen in over_http:
        assert (seen.found["ran"], seen.found["bad"], seen.foreign) == ("", [], []), seen.url
        assert seen.found["twice"] == 1, seen.url
    assert len(colours) == 1 and "rgb(1, 2, 3)" not in colours
    assert len(sheets) == 1


def test_nothing_happens_to_a_page_opened_as_a_file(browser: Browser, site: Path) -> None:
    start = f"file://{site}"
    for seen in visit(browser, start, one_of_each_kind(site), (start,)):
        assert (seen.found["ran"], seen.found["bad"], seen.foreign) == ("", [], []), seen.url
        assert seen.complaints == [], seen.url


def test_each_text_is_shown_as_typed(over_http: list[Seen], book: HostileBook) -> None:
    shown = " ".join(seen.text for seen in over_http)
    hidden = [place for place, text in book.texts.items() if text not in shown]
    assert [place for place in hidden if place.split(".")[0].split(": ")[1] not in UNSHOWN] == []
    assert {text.rpartition(" ")[0] for text in book.texts.values()} == set(INERT)


def test_what_a_reader_asks_is_text_too(browser: Browser, address: str) -> None:
    browser.open(f"{address}/index.html", listening=True)
    for asked in INERT:
        browser.run(
            "const field = document.getElementById('finder-field'); field.value = arguments[0];"
            "field.dispatchEvent(new Event('input', {bubbles: true}))",
            f"tansy {asked}",
        )
        found = browser.run(_LOOK)
        assert isinstance(found, dict)
        assert (found["ran"], found["bad"]) == ("", []), asked
    assert browser.foreign(address) == []


def test_cards_of_the_finder_show_names_as_typed(
    browser: Browser, address: str, book: HostileBook
) -> None:
    browser.open(f"{address}/index.html")
    browser.driver.find_element("id", "finder-field").send_keys("switched")
    text = str(browser.run("return document.getElementById('finder').textContent"))
    found = browser.run(_LOOK)
    assert isinstance(found, dict)
    assert (found["ran"], found["bad"]) == ("", [])
    makes = {text for place, text in book.texts.items() if place.endswith(": make")}
    assert [make for make in makes if make in text]


def test_no_cell_of_the_table_runs_and_each_can_be_read_back(site: Path, book: HostileBook) -> None:
    text = (site / "data" / "pins.csv").read_text("utf-8-sig")
    rows = list(csv.DictReader(text.splitlines(keepends=True)))
    cells = [cell for row in rows for cell in row.values()]
    assert rows and all(not cell.lstrip(" ").startswith(tuple(RUNS)) for cell in cells)
    typed = set(book.texts.values())
    assert {plain_cell(row["make"]) for row in rows} <= typed
    assert {plain_cell(row["note"]) for row in rows if row["note"]} <= typed


def test_the_data_files_hold_what_was_typed(site: Path, book: HostileBook) -> None:
    for kind in KINDS:
        for file in sorted((book.folder / kind).rglob("*.yaml")):
            published = json.loads((site / "data" / kind / f"{file.stem}.json").read_text("utf-8"))
            # What is typed as a line of text is published as the entry that it stands for.
            typed, _ = written_out(KINDS[kind], json.loads(file.read_text("utf-8")))
            record = published.get("record", published)
            assert not set(_strings(typed)) - set(_strings(record)), file.name


def _strings(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for inner in value:
            yield from _strings(inner)
    elif isinstance(value, str):
        yield value


def test_script_files_end_no_script_element_and_file_names_are_plain(site: Path) -> None:
    for file in sorted(path for path in site.rglob("[!.]*") if path.is_file()):
        assert re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]*", file.name), file.name
        if file.suffix == ".js" and " q" in (text := file.read_text("utf-8")):
            assert "</script" not in text.lower() and "<!--" not in text, file.name
    assert not list(site.parent.glob("escape*"))

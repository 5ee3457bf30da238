"""What tests ask of the finder in the page: all answers to a text, typing, what is shown."""

from __future__ import annotations

from functools import cache
from typing import Any

from chromium import Browser
from shipped_book import PINOUTS

from builder.book import open_book
from builder.finder.entries import Entry
from builder.finder.forgiven import said_of
from builder.finder.parts import Part
from builder.finder.search import MOST_VEHICLES, Answer, Reply, reply
from builder.pipeline.answers.book_parts import book_parts
from builder.pipeline.site.finder_files import finder_data_of

ALL_PARTS = """
  const done = arguments[0], book = window.loombookBook;
  const missing = () => book.data().parts.map((first, n) => n).filter(n => !book.part(n));
  missing().forEach(n => book.fetchPart(n, () => null));
  const look = () => missing().length ? setTimeout(look, 5) : done(true);
  look();
"""
ASK = """
  return arguments[0].map(text => window.loombookFinder.find(text).map(a => [a.entry.id,
    a.rows.map(r => [r.fn, r.channel, r.plug, r.cavity, r.wire, r.grade, r.warning]), a.notes]));
"""
REPLIES = """
  return arguments[0].map(text => {
    const found = window.loombookFinder.search(text);
    const read = found.read.map(one => [one.said, one.words]);
    const parts = found.parts.map(one => one.id);
    const planned = (found.found.length ? found.planned : []).map(one => one.id);
    return [read, window.loombookSaid.saidOf(found.read), found.missed, parts, planned];
  });
"""
LOAD = "window.loombookFinder.load(arguments[0], arguments[1])"


def open_finder(browser: Browser, address: str) -> None:
    """Open the home page and fetch every part of the book."""
    browser.open(f"{address}/index.html")
    browser.driver.set_script_timeout(20)
    assert browser.driver.execute_async_script(ALL_PARTS)


def load_entries(
    browser: Browser, entries: list[Entry], renamed: dict[str, str] | None = None
) -> None:
    """Give the page another book; `renamed` are the ids of today by old id."""
    data = finder_data_of(entries, renamed)
    browser.run(LOAD, data.book, list(data.parts))


def page_answers(browser: Browser, texts: list[str]) -> list[Any]:
    """What the page answers to each text: [id, rows, notes] of each vehicle."""
    return list(browser.run(ASK, texts))  # type: ignore[call-overload]


def page_replies(browser: Browser, texts: list[str]) -> list[Any]:
    """What the page says with its answers: words read as others, so in a sentence, why none, the
    parts that were named, and the converters whose plans are asked for."""
    return list(browser.run(REPLIES, texts))  # type: ignore[call-overload]


def core_replies(
    texts: list[str], entries: list[Entry], renamed: dict[str, str] | None = None
) -> list[Any]:
    """What the command says with its answers, in the same form."""
    return [_reply(reply(text, entries, renamed, shipped_parts())) for text in texts]


@cache
def shipped_parts() -> list[Part]:
    """The parts of the shipped book, which the page has whatever cars it is given."""
    return book_parts(open_book(PINOUTS))


def _reply(found: Reply) -> list[Any]:
    read = [[one.said, list(one.words)] for one in found.read_as]
    named = [[part.id for part in some] for some in (found.parts, found.planned)]
    return [read, said_of(found.read_as), found.missed, *named]


def core_answers(texts: list[str], entries: list[Entry]) -> list[Any]:
    """What the command answers, in the same form."""
    found = [reply(text, entries, parts=shipped_parts()).answers for text in texts]
    return [[_plain(answer) for answer in one[:MOST_VEHICLES]] for one in found]


def _plain(answer: Answer) -> list[Any]:
    return [answer.entry.id, [list(row) for row in answer.rows], list(answer.notes)]

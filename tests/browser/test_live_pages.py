"""What is saved shows on the page that is open, and on no other; a built site knows nothing."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from chromium import Browser
from serving_book import CAR, OTHER_CAR, PAGE, STANDING, serving_book

from builder.book import Book
from builder.cli import serving
from builder.cli.books import opened
from builder.cli.live_pages import SCRIPT_URL
from builder.cli.serving import Showing
from builder.cli.site_server import SiteServer
from builder.rendering.patched_site import PatchedSite

pytestmark = pytest.mark.browser

WITHIN_S = 60.0
"""So long a machine that does much else may take."""


class Served:
    """A book that `serve` looks at again and again, as the command does."""

    def __init__(self, book: Path, site: Path) -> None:
        self.book, self.site = book, site
        self.server = SiteServer(site)
        self.showing = Showing(PatchedSite(site), self.server, self._opened)
        self._ended = threading.Event()
        threading.Thread(target=self.server.serve_forever, args=(0.01,), daemon=True).start()
        self.showing.show(self._opened(None))
        self._looking = threading.Thread(target=self._look, daemon=True)
        self._looking.start()

    def _opened(self, since: Book | None) -> Book:
        return opened(self.book, since=since)

    def _look(self) -> None:
        while not self._ended.wait(0.05):
            self.showing.look_again()

    def end(self) -> None:
        self._ended.set()
        self._looking.join(WITHIN_S)
        self.server.shutdown()
        self.server.server_close()

    def address(self, url: str) -> str:
        return f"http://127.0.0.1:{self.server.server_port}/{url}"

    def edit(self, place: str, before: str, after: str) -> None:
        text = (self.book / place).read_text("utf-8")
        assert before in text
        (self.book / place).write_text(text.replace(before, after), "utf-8")


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    found = Served(serving_book(tmp_path / "book"), tmp_path / "site")
    yield found
    found.end()


def seen(browser: Browser, said: Callable[[str], bool]) -> str:
    """What the open page says as soon as that is what is waited for."""
    until = time.monotonic() + WITHIN_S
    while time.monotonic() < until:
        text = str(browser.run("return document.body ? document.body.innerText : ''"))
        if said(text):
            return text
        time.sleep(0.05)
    raise AssertionError(f"never seen; the page says: {text[:400]}")


def test_an_edit_shows_on_its_page_and_leaves_the_others_alone(
    browser: Browser, served: Served
) -> None:
    browser.open(served.address(STANDING))
    browser.run("window.untouched = true")
    served.edit(CAR, "model: Tansy", "model: Tanzy")
    while "Tanzy" not in (served.site / PAGE).read_text("utf-8"):
        time.sleep(0.05)
    browser.open(served.address(PAGE))
    seen(browser, lambda text: "Tanzy" in text)
    browser.run("window.untouched = true")
    served.edit(OTHER_CAR, "model: Teasel", "model: Teazel")
    while "Teazel" not in (served.site / STANDING).read_text("utf-8"):
        time.sleep(0.05)
    assert browser.run("return window.untouched") is True
    served.edit(CAR, "model: Tanzy", "model: Tansi")
    seen(browser, lambda text: "Tansi" in text)
    assert browser.run("return window.untouched") is None
    assert not [said for said in browser.complaints() if "Content Security" in said]


def test_a_broken_edit_says_what_is_wrong_where_one_looks_and_goes_when_it_is_mended(
    browser: Browser, served: Served
) -> None:
    browser.open(served.address(PAGE))
    seen(browser, lambda text: "Tansy" in text)
    served.edit(CAR, "model: Tansy", "model: [")
    told = seen(browser, lambda text: CAR.rsplit("/", 1)[-1] in text)
    assert f"{CAR.rsplit('/', 1)[-1]}:" in told  # with line and column
    served.edit(CAR, "model: [", "model: Tansy")
    seen(browser, lambda text: "Tap plan" in text or "Plug" in text)


def test_a_deleted_record_goes_from_the_open_page_and_comes_back(
    browser: Browser, served: Served
) -> None:
    browser.open(served.address(STANDING))
    text = (served.book / OTHER_CAR).read_bytes()
    (served.book / OTHER_CAR).unlink()
    seen(browser, lambda said: "Teasel" not in said)
    (served.book / OTHER_CAR).write_bytes(text)
    seen(browser, lambda said: "Teasel" in said)


def test_what_is_saved_while_a_site_is_built_shows_after_it(
    browser: Browser, served: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser.open(served.address(PAGE))
    begun = threading.Event()
    build = serving.patch_site

    def slowly(*given: object, **more: object) -> object:
        begun.set()
        time.sleep(1)
        return build(*given, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(serving, "patch_site", slowly)
    served.edit(CAR, "model: Tansy", "model: Tanzy")
    assert begun.wait(WITHIN_S)
    served.edit(CAR, "model: Tanzy", "model: Tansi")
    seen(browser, lambda text: "Tansi" in text)


def test_nothing_of_it_is_in_the_site(served: Served) -> None:
    word = SCRIPT_URL.split("/")[1].encode()
    pages = [path for path in served.site.rglob("*") if path.is_file()]
    assert pages and not [path for path in pages if b"/" + word + b"/" in path.read_bytes()]

"""The site without a signal: saved whole, said only when saved, replaced whole or not at all."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from moving_site import MovingSite, served, until
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook
from shipped_cars import copy_makers

from builder.rendering import offline

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
CAR, PLAN = "ostrel-tansy-2017-hatch-base", "ostrel-tansy-2017-hatch-base--cvn-2a"
NEW_WORD = "exchanged"


def build(book: Path, site: Path) -> Path:
    done = loombook("build", book, "--output", site)
    assert done.exit_code == 0, done.output
    return site


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The site of a small book, and of the same book after one vehicle has changed."""
    folder = tmp_path_factory.mktemp("sites")
    book = folder / "book"
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, book / kind)
    copy_makers(book, "ostrel")
    old = build(book, folder / "old")
    record = book / "vehicles" / "ostrel" / f"{CAR}.yaml"
    text = record.read_text("utf-8")
    record.write_text(re.sub(r"^variant: .*$", f"variant: {NEW_WORD}", text, flags=re.M), "utf-8")
    return old, build(book, folder / "new")


@pytest.fixture
def server(sites: tuple[Path, Path]) -> Iterator[MovingSite]:
    with served(sites[0]) as running:
        yield running


def line(browser: Browser) -> str:
    """The line about the saved site; empty while it is hidden."""
    return str(
        browser.run("const l = document.querySelector('[data-offline]'); return l.innerText || ''")
    )


def save(browser: Browser, server: MovingSite, page: str = "index.html") -> None:
    browser.open(server.address + page)
    until(lambda: line(browser).startswith("Saved for use without a signal, data of 20"))


def caches(browser: Browser) -> dict[str, dict[str, str]]:
    """By cache, the sum of every file in it, worked out from the bytes that are kept."""
    found = browser.driver.execute_async_script(
        """
        const done = arguments[0];
        (async () => {
          const all = {};
          for (const name of await caches.keys()) {
            all[name] = {};
            const cache = await caches.open(name);
            for (const request of await cache.keys()) {
              const bytes = await (await cache.match(request)).arrayBuffer();
              const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
              const text = Array.from(sum, b => b.toString(16).padStart(2, "0")).join("");
              all[name][decodeURI(request.url.split("/shop/book/")[1])] = text.slice(0, 32);
            }
          }
          return all;
        })().then(done, error => done({error: {message: String(error)}}));
        """
    )
    assert isinstance(found, dict)
    return found


def names_of_caches(browser: Browser) -> list[str]:
    """Which caches there are, opening none: to open one that was deleted just now makes it anew."""
    found = browser.driver.execute_async_script("caches.keys().then(arguments[0])")
    assert isinstance(found, list)
    return found


def listed(site: Path) -> dict[str, str]:
    both = json.loads((site / offline.LIST_URL).read_text("utf-8"))
    return {**both["shared"], **both["cars"]}


def is_whole(kept: dict[str, str], site: Path) -> bool:
    wanted = listed(site)
    return {url: kept.get(url) for url in wanted} == wanted


def test_after_one_visit_everything_works_without_a_server(
    browser: Browser, server: MovingSite, sites: tuple[Path, Path]
) -> None:
    save(browser, server)
    assert browser.complaints() == []
    policy = str(browser.run("return document.querySelector('meta[http-equiv]').content"))
    assert "worker-src 'self'" in policy
    assert "unsafe" not in policy
    [kept] = caches(browser).values()
    assert is_whole(kept, sites[0])
    server.silent = True
    browser.open(server.address + "index.html")
    browser.run(
        "const f = document.getElementById('finder-field'); f.value = 'tansy switched';"
        "f.dispatchEvent(new Event('input'))"
    )
    assert "plug" in str(browser.run("return document.querySelector('.finder-answer').innerText"))
    for page in (f"vehicles/{CAR}.html", f"plans/{PLAN}.html", "identify.html"):
        browser.open(server.address + page)
        assert browser.run("return document.querySelectorAll('h1').length") == 1
        assert browser.complaints() == []
        until(lambda: line(browser).startswith("Saved for use without a signal"))
    a_folder_is_its_first_page_and_a_fragment_is_found(browser, server)
    what_is_not_kept_says_so_instead_of_failing(browser, server)


def a_folder_is_its_first_page_and_a_fragment_is_found(
    browser: Browser, server: MovingSite
) -> None:
    browser.open(server.address)
    assert browser.run("return !!document.getElementById('finder-field')")
    browser.open(f"{server.address}vehicles/{CAR}.html?from=paper#pin-A-1")
    assert browser.run("return !!document.getElementById('answers')")


def what_is_not_kept_says_so_instead_of_failing(browser: Browser, server: MovingSite) -> None:
    browser.open(server.address + "rules/PIN101.html")
    assert "Not saved on this device" in str(browser.run("return document.body.innerText"))
    assert browser.run("return document.querySelector('a[href$=\"index.html\"]') !== null")


# What can arrive instead of a file: an error, or the file of another build.
INSTEAD = (None, b"<h1>of another build</h1>")


def test_nothing_is_called_saved_when_one_file_fails(
    browser: Browser, server: MovingSite, sites: tuple[Path, Path]
) -> None:
    for instead in INSTEAD:
        server.broken[f"plans/{PLAN}.html"] = instead
        browser.open(server.address + "index.html")
        until(lambda: line(browser).startswith("Not saved"))
        assert caches(browser) == {}
    server.broken.clear()
    save(browser, server)
    assert is_whole(*caches(browser).values(), sites[0])


def test_new_data_with_one_broken_file_leaves_the_old_set_whole(
    browser: Browser, server: MovingSite, sites: tuple[Path, Path]
) -> None:
    old, new = sites
    save(browser, server)
    [before] = caches(browser)
    server.folder = new
    for instead in INSTEAD:
        server.broken[f"plans/{PLAN}.html"] = instead
        server.asked.clear()
        browser.open(server.address + "index.html")
        until(lambda: f"plans/{PLAN}.html" in server.asked)  # the new set is being fetched
        until(lambda: names_of_caches(browser) == [before])  # and has been given up
        assert is_whole(caches(browser)[before], old)
    server.silent = True
    browser.open(f"{server.address}vehicles/{CAR}.html")
    assert NEW_WORD not in str(browser.run("return document.querySelector('h1').innerText"))
    until(lambda: line(browser).startswith("Saved for use without a signal"))


def test_new_data_takes_the_place_of_the_old_whole_and_only_what_changed_is_fetched(
    browser: Browser, server: MovingSite, sites: tuple[Path, Path]
) -> None:
    old, new = sites
    save(browser, server)
    [before] = caches(browser)
    server.folder = new
    browser.open(server.address + "index.html")
    server.asked.clear()
    until(lambda: "load it again" in line(browser))
    same = {url for url, sum_ in listed(new).items() if listed(old).get(url) == sum_}
    assert same
    assert not same & set(server.asked)
    [(after, kept)] = caches(browser).items()
    assert after != before
    assert is_whole(kept, new)
    server.silent = True
    browser.open(f"{server.address}vehicles/{CAR}.html")
    assert NEW_WORD in str(browser.run("return document.querySelector('h1').innerText"))


def test_storage_that_was_cleared_is_filled_again_before_it_is_called_saved(
    browser: Browser, server: MovingSite, sites: tuple[Path, Path]
) -> None:
    save(browser, server)
    browser.driver.execute_async_script(
        "const done = arguments[0]; caches.keys()"
        ".then(names => Promise.all(names.map(name => caches.delete(name)))).then(done)"
    )
    server.silent = True
    browser.run("location.hash = ''")
    assert caches(browser) == {}
    server.silent = False
    save(browser, server)
    assert is_whole(*caches(browser).values(), sites[0])


@pytest.fixture(scope="module")
def large(tmp_path_factory: pytest.TempPathFactory, sites: tuple[Path, Path]) -> tuple[Path, Path]:
    """The same two sites as they would be in a book too large to be saved unasked."""
    folder = tmp_path_factory.mktemp("large")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(offline, "AUTOMATIC_BYTES", 1_000)
        book = sites[0].parent / "book"
        record = book / "vehicles" / "ostrel" / f"{CAR}.yaml"
        text = record.read_text("utf-8")
        record.write_text(text.replace(f"variant: {NEW_WORD}", "variant: earlier"), "utf-8")
        old = build(book, folder / "old")
        record.write_text(text, "utf-8")
        return old, build(book, folder / "new")


def others(kept: dict[str, str]) -> set[str]:
    return {url for url in kept if url.startswith(("vehicles/", "plans/")) and "index" not in url}


def test_of_a_large_book_the_opened_pages_are_kept_and_come_along(
    browser: Browser, large: tuple[Path, Path]
) -> None:
    page = f"vehicles/{CAR}.html"
    with served(large[0]) as server:
        save(browser, server)
        assert others(next(iter(caches(browser).values()))) == set()
        browser.open(server.address + page)
        until(lambda: others(next(iter(caches(browser).values()))) == {page})
        save(browser, server, page)
        assert ": lists, and 1 of" in line(browser)
        server.folder = large[1]
        browser.open(server.address + "index.html")
        until(lambda: "load it again" in line(browser))
        server.silent = True
        browser.open(server.address + page)
        assert NEW_WORD in str(browser.run("return document.querySelector('h1').innerText"))
        browser.open(f"{server.address}plans/{PLAN}.html")
        assert "Not saved on this device" in str(browser.run("return document.body.innerText"))


def test_of_a_large_book_a_button_saves_all(browser: Browser, large: tuple[Path, Path]) -> None:
    with served(large[0]) as server:
        save(browser, server, offline.PAGE_URL)
        until(lambda: browser.run("return !document.querySelector('[data-offline-all]').hidden"))
        server.broken[f"plans/{PLAN}.html"] = None
        browser.run("document.querySelector('[data-offline-all] button').click()")
        status = "return document.querySelector('[data-offline-all] [role=status]').innerText"
        until(lambda: "press again" in str(browser.run(status)))
        server.broken.clear()
        browser.run("document.querySelector('[data-offline-all] button').click()")
        until(lambda: "car pages" not in line(browser))
        assert is_whole(*caches(browser).values(), large[0])
        server.silent = True
        browser.open(f"{server.address}plans/{PLAN}.html")
        assert browser.run("return document.querySelectorAll('[data-ticks]').length") == 1


def test_from_files_nothing_is_said_and_nothing_complains(
    browser: Browser, sites: tuple[Path, Path]
) -> None:
    browser.open(f"file://{sites[0]}/index.html")
    assert line(browser) == ""
    assert browser.complaints() == []

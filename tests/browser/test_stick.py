"""The zip of a site, unpacked and opened from files: everything but the saving works."""

from __future__ import annotations

from pathlib import Path
from zipfile import ZipFile

import pytest
from chromium import CHROMIUM, Browser
from moving_site import until

from builder.rendering.zipping import FOLDER, write_zip

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]


@pytest.fixture(scope="module")
def stick(site: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    folder = tmp_path_factory.mktemp("stick with a space")
    write_zip(site, folder / "site.zip")
    with ZipFile(folder / "site.zip") as zipped:
        zipped.extractall(folder)
    return (folder / FOLDER).as_uri()


def ask(browser: Browser, words: str) -> str:
    browser.run(
        "const f = document.getElementById('finder-field'); f.value = arguments[0];"
        "f.dispatchEvent(new Event('input'))",
        words,
    )
    return str(browser.run("return document.getElementById('finder-answers').innerText"))


def test_the_finder_answers_and_its_links_lead_on(browser: Browser, stick: str) -> None:
    browser.open(f"{stick}/index.html")
    assert "cavity" in ask(browser, "tansy 2017 constant")
    browser.run("document.querySelector('.finder-car a').click()")
    until(lambda: browser.run("return !!document.getElementById('answers')"))
    assert browser.complaints() == []


def test_which_car_is_asked_and_answered(browser: Browser, stick: str) -> None:
    browser.open(f"{stick}/index.html")
    assert "records could be this car" in ask(browser, "quillan lovage 2021")
    browser.run("document.querySelector('.finder-choices button').click()")
    assert browser.run("return document.querySelectorAll('.finder-said').length") == 1


def test_an_unknown_wire_is_named(browser: Browser, stick: str) -> None:
    browser.open(f"{stick}/identify.html")
    assert browser.run("return document.getElementById('identify').hidden") is False
    browser.run(
        "document.getElementById('identify-value').value = '12.4';"
        "document.getElementById('identify-battery').value = '12.5';"
        "document.querySelector('#identify-form [type=submit]').click()"
    )
    assert browser.run("return document.querySelectorAll('#identify-ranking details').length")
    browser.run("document.getElementById('identify-again').click()")
    assert browser.complaints() == []


def test_ticks_are_kept(browser: Browser, stick: str) -> None:
    page = f"{stick}/jobs/leto-four-doors.html"
    browser.open(page)
    first = "return document.querySelector('[data-ticks] input')"
    browser.run(f"{first}.click()".replace("return ", ""))
    browser.open(page)
    assert browser.run(f"{first}.checked") is True
    browser.run("localStorage.clear()")
    assert browser.complaints() == []


def test_nothing_is_asked_of_any_server(browser: Browser, stick: str) -> None:
    for page in ("index.html", "identify.html", "data/index.html", "handbook/offline.html"):
        browser.open(f"{stick}/{page}", listening=True)
        asked = [url for url in browser.requested() if not url.startswith(("file:", "data:"))]
        assert asked == []
        assert browser.complaints() == []

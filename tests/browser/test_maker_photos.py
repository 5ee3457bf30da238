"""Photos beside a draft of the page "Take down a car": made small, kept, and given out with it."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from maker_page import EIGHT, MakerPage, with_a_plug
from selenium.webdriver.common.by import By
from test_bay_photos import came, picture, wide_and_high

from builder.editing.photo_bytes import bare_jpeg

pytestmark = pytest.mark.browser

NAME = "ardent-heron-2019-hatch-plug-a-1.jpg"
OPEN = "Open Ardent Heron 2019 hatch"


@pytest.fixture
def page(browser: Any, address: str, tmp_path: Path) -> Iterator[MakerPage]:
    made = with_a_plug(browser, address, EIGHT)
    browser.as_phone(tmp_path)
    yield made
    browser.run("localStorage.clear(); indexedDB.deleteDatabase('loombook-bay')")
    browser.resize(1280)


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    return picture(tmp_path / "camera.png", 2400, 600)


def take(page: MakerPage, photo: Path, said: str, name: str = "maker-plug-photo") -> None:
    page.browser.run("document.querySelectorAll('#maker-fields details').forEach(d => d.open = 1)")
    page.browser.driver.find_element(By.ID, name).send_keys(str(photo))
    waited(page, f"{name}-said", said)


def waited(page: MakerPage, name: str, said: str) -> None:
    text = "const n = document.getElementById(arguments[0]); return n ? n.textContent : ''"
    for _ in range(200):
        if said in str(page.browser.run(text, name)):
            return
        page.browser.driver.execute_async_script("setTimeout(arguments[0], 25)")
    raise AssertionError(page.browser.run(text, name))


def photos(page: MakerPage) -> Any:
    return page.browser.run(
        "const key = Object.keys(localStorage).find(k => k.startsWith('loombook:maker:draft:'));"
        "return JSON.parse(localStorage.getItem(key)).record.photos || []"
    )


def reopened(page: MakerPage) -> None:
    page.browser.driver.refresh()
    page.press(OPEN)
    page.step("Plugs")
    page.press("Open plug A")


def drawn(page: MakerPage) -> Any:
    """The sizes of the small pictures that are shown."""
    page.browser.driver.execute_async_script("setTimeout(arguments[0], 300)")
    return page.browser.run(
        "return [...document.querySelectorAll('.maker-photo')].map(c => [c.width, c.height])"
    )


def test_a_photo_is_kept_named_and_given_out_with_the_draft(
    page: MakerPage, photo: Path, tmp_path: Path
) -> None:
    take(page, photo, f"Kept on this device as {NAME}.")
    page.press("from the wire side")
    reopened(page)
    assert photos(page) == [{"file": NAME, "shows": "plug A from the wire side"}]
    assert drawn(page) == [[160, 40]]
    page.step("Fuses and the rest")
    take(page, photo, "Kept on this device", "maker-photo")
    assert drawn(page) == [[160, 40], [160, 40]]
    page.step("Check and take")
    page.press("maker-zip")
    with zipfile.ZipFile(came(tmp_path)) as inside:
        assert inside.testzip() is None
        names = inside.namelist()
        folder = "vehicles/ardent"
        second = "ardent-heron-2019-hatch-1.jpg"
        assert names == [
            f"{folder}/ardent-heron-2019-hatch.yaml", f"{folder}/{NAME}", f"{folder}/{second}",
        ]  # fmt: skip
        record = yaml.safe_load(inside.read(names[0]))
        assert [one["file"] for one in record["photos"]] == [NAME, second]
        content = inside.read(names[1])
        assert content == bare_jpeg(content)
        assert wide_and_high(content) == (1600, 400)
    assert page.browser.complaints() == []


def test_a_photo_that_is_removed_comes_back_by_undo(page: MakerPage, photo: Path) -> None:
    take(page, photo, "Kept on this device")
    page.press(f"Remove {NAME}")
    assert photos(page) == []
    page.press("maker-undo")
    page.step("Plugs")
    page.press("Open plug A")
    assert photos(page) == [{"file": NAME, "shows": "plug A"}]
    assert drawn(page) == [[160, 40]]


def test_one_press_says_that_it_may_be_shown_and_another_takes_it_back(
    page: MakerPage, photo: Path
) -> None:
    take(page, photo, "Kept on this device")
    assert photos(page) == [{"file": NAME, "shows": "plug A"}]
    page.press("may be shown, CC0-1.0")
    assert photos(page) == [
        {"file": NAME, "shows": "plug A", "plug": "A", "licence": "CC0-1.0", "consent": "yes"}
    ]
    page.press("may be shown, CC0-1.0")
    assert photos(page) == [{"file": NAME, "shows": "plug A"}]


def test_where_no_photo_can_be_kept_it_is_said_and_given_out_all_the_same(
    page: MakerPage, photo: Path, tmp_path: Path
) -> None:
    page.browser.run("IDBFactory.prototype.open = () => { throw new Error('refused'); }")
    take(page, photo, "only until you leave the page")
    status = "return document.getElementById('maker-status').textContent"
    assert "Photos are kept only until you leave" in str(page.browser.run(status))
    page.step("Check and take")
    page.press("maker-zip")
    with zipfile.ZipFile(came(tmp_path)) as inside:
        assert any(name.endswith(NAME) for name in inside.namelist())
    reopened(page)
    page.browser.run("document.querySelectorAll('#maker-fields details').forEach(d => d.open = 1)")
    waited(page, "maker-fields", f"This browser has lost the photo {NAME}")
    page.step("Check and take")
    page.press("maker-zip")
    waited(page, "maker-said", f"has lost {NAME}")


def test_what_is_no_picture_is_told_and_not_kept(page: MakerPage, tmp_path: Path) -> None:
    (tmp_path / "letter.jpg").write_bytes(b"no picture")
    take(page, tmp_path / "letter.jpg", "That is no picture this browser can read.")
    assert photos(page) == []


def test_a_draft_that_is_forgotten_takes_its_photos_along(page: MakerPage, photo: Path) -> None:
    take(page, photo, "Kept on this device")
    page.press("maker-leave")
    page.press("Delete")
    page.press("Really delete?")
    assert kept(page) == 1  # it can still be brought back
    page.press("Forget it for good")
    page.browser.driver.execute_async_script("setTimeout(arguments[0], 300)")
    assert kept(page) == 0


def kept(page: MakerPage) -> Any:
    return page.browser.driver.execute_async_script(
        "const done = arguments[0], asked = indexedDB.open('loombook-bay', 1);"
        "asked.onsuccess = () => { const all = asked.result.transaction('photos')"
        ".objectStore('photos').count(); all.onsuccess = () => { asked.result.close();"
        " done(all.result); }; };"
    )

"""Notes and photos taken in the bay: kept over a reload, out in one .zip, and into the book."""

from __future__ import annotations

import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from evidence_book import JOB, job_file, small_book
from moving_site import until
from selenium.webdriver.common.by import By
from shipped_book import loombook
from test_bay_mode import begin, now, walk
from test_bay_sheet import address, build, choose, press

from builder.editing.photo_bytes import bare_jpeg

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
NOTE = """
const field = document.querySelector('.bay-now .bay-notes .bay-field input');
field.value = arguments[0];
field.dispatchEvent(new Event('input', {bubbles: true}));
"""
SAID = "return document.querySelector('.bay-now .bay-photos').textContent"


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = small_book(tmp_path_factory.mktemp("photos") / "book")
    build(folder)
    return folder


@pytest.fixture
def phone(book: Path, browser: Browser, tmp_path: Path) -> Iterator[Browser]:
    browser.as_phone(tmp_path)
    browser.open(address(book))
    begin(browser)
    yield browser
    browser.run("localStorage.clear(); indexedDB.deleteDatabase('loombook-bay')")


def picture(place: Path, width: int, height: int) -> Path:
    """A grey picture as a camera would give it, larger than what is kept."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = zlib.compress((b"\0" + b"\x80" * width) * height)
    place.write_bytes(
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")
    )
    return place


def take(browser: Browser, photo: Path, said: str) -> None:
    field = browser.driver.find_element(By.CSS_SELECTOR, ".bay-now .bay-notes input[type=file]")
    field.send_keys(str(photo))
    waited_for(browser, said)


def waited_for(browser: Browser, said: str) -> None:
    for _ in range(200):
        if browser.run(SAID) == said:
            return
        browser.driver.execute_async_script("setTimeout(arguments[0], 25)")
    raise AssertionError(browser.run(SAID))


def came(folder: Path) -> Path:
    def saved() -> list[Path]:
        return [one for one in folder.glob("*.zip") if one.stat().st_size]

    until(saved)
    return saved()[0]


def test_notes_and_photos_go_from_the_phone_into_the_book(
    book: Path, phone: Browser, tmp_path: Path
) -> None:
    photo = picture(tmp_path / "camera.png", 2400, 600)
    choose(phone, "by", "third-bay")
    walk(phone, "lamps-before")
    phone.run(NOTE, "lamp of the tyres was lit")
    take(phone, photo, "1 photo")
    take(phone, photo, "2 photos")
    phone.run("document.querySelector('.bay-next').click()")
    assert now(phone)["step"] > 0
    take(phone, photo, "1 photo")
    press(phone, "Remove the last", ".bay-now")
    waited_for(phone, "")
    take(phone, photo, "1 photo")
    phone.driver.refresh()
    assert phone.run(SAID) == "1 photo"
    walk(phone)
    press(phone, "Download evidence")
    package = came(tmp_path)
    with zipfile.ZipFile(package) as inside:
        assert inside.testzip() is None
        photos = [name for name in inside.namelist() if name.endswith(".jpg")]
        assert len(photos) == 3
        for name in photos:
            content = inside.read(name)
            assert content == bare_jpeg(content)
            assert wide_and_high(content) == (1600, 400)
    done = loombook("evidence", "add", package, "--book", book)
    assert "lamp of the tyres was lit, photo" in done.output
    assert sorted(path.name for path in (book / "jobs").glob("*.jpg")) == sorted(photos)
    assert f"photo: {JOB}-lamps-before-2.jpg" in job_file(book).read_text("utf-8")


def wide_and_high(jpeg: bytes) -> tuple[int, int]:
    """Width and height as the frame header says. Source: ITU-T T.81, B.2.2 (memory)."""
    at = 2
    while jpeg[at + 1] not in (0xC0, 0xC1, 0xC2):
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4])
    return int.from_bytes(jpeg[at + 7 : at + 9]), int.from_bytes(jpeg[at + 5 : at + 7])


def test_what_is_no_picture_is_told_and_not_kept(phone: Browser, tmp_path: Path) -> None:
    (tmp_path / "letter.jpg").write_bytes(b"no picture")
    walk(phone, "lamps-before")
    take(phone, tmp_path / "letter.jpg", "That is no picture this browser can read. ")

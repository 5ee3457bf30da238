"""The way back from paper, the foot of a printed page, and where both come from."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import zxingcpp
from page_samples import INFO
from shipped_book import loombook

from builder.book import open_book
from builder.rendering.drawings.page_code import QUIET, page_code
from builder.rendering.page import BuildInfo
from builder.rendering.pages.paper import foot_words, way_back

ADDRESSED = BuildInfo("loombook", "0.1.0", "2024-05-13", "https://pins.example/book/")
URL = "plans/example-make-model-2019--cvn-4a.html"
PIXELS = 4  # a module


def decoded(svg: str) -> list[str]:
    """What a reader finds in the drawn path: its boxes painted on white, four pixels a module."""
    found = re.search(r'viewBox="0 0 (\d+) (\d+)"', svg)
    assert found and found[1] == found[2]
    side = int(found[1]) * PIXELS
    pixels = bytearray(b"\xff" * side * side)
    dark = re.findall(r'<path d="([^"]*)" fill="#000"', svg)[0]
    for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\3z", dark):
        for row in range(int(y) * PIXELS, (int(y) + 1) * PIXELS):
            start = row * side + int(x) * PIXELS
            pixels[start : start + int(length) * PIXELS] = b"\0" * int(length) * PIXELS
    return [c.text for c in zxingcpp.read_barcodes(memoryview(pixels).cast("B", [side, side]))]


@pytest.mark.parametrize("address", ["https://a.example/", f"https://pins.example/{'long/' * 30}x"])
def test_the_code_holds_the_address(address: str) -> None:
    assert decoded(page_code(address)) == [address]


def test_the_code_has_its_quiet_zone_and_its_words() -> None:
    svg = page_code("https://a.example/<b>")
    assert "<title>code that leads to https://a.example/&lt;b&gt;</title>" in svg
    dark = re.findall(r'<path d="([^"]*)" fill="#000"', svg)[0]
    places = [(int(x), int(y)) for x, y in re.findall(r"M(\d+) (\d+)", dark)]
    assert min(min(place) for place in places) == QUIET


@pytest.mark.parametrize("given", ["https://pins.example/book", "https://pins.example/book/"])
def test_a_page_knows_its_address_with_or_without_a_slash(given: str) -> None:
    info = BuildInfo("loombook", "0.1.0", "2024-05-13", given)
    assert way_back(info, URL).address == f"https://pins.example/book/{URL}"


def test_a_site_without_an_address_has_no_code() -> None:
    assert way_back(INFO, URL) == ("", "")


def test_the_foot_names_the_record_its_state_and_that_it_is_invented() -> None:
    assert foot_words("job a", "0a1b2c3d", "invented") == "job a · sum 0a1b2c3d · invented"
    assert foot_words("job a", "", "measured") == "job a"


def test_an_address_stands_in_the_settings_of_a_book(tmp_path: Path) -> None:
    (tmp_path / "vehicles").mkdir()
    settings = tmp_path / "book.yaml"
    settings.write_text("schema: 1\nsite_address: https://pins.example/book/\n", "utf-8")
    book = open_book(tmp_path)
    assert (book.site_address, book.findings) == ("https://pins.example/book/", ())


@pytest.mark.parametrize(
    "address",
    [
        "http://pins.example/",
        "ftp://pins.example/",
        "pins.example",
        "https://a b/",
        "https://a/?q=1",
    ],
)
def test_an_address_that_is_not_https_is_refused(tmp_path: Path, address: str) -> None:
    (tmp_path / "vehicles").mkdir()
    (tmp_path / "book.yaml").write_text(f'site_address: "{address}"\n', "utf-8")
    book = open_book(tmp_path)
    assert book.site_address == ""
    assert ["site_address" in str(f.path) for f in book.findings] == [True]
    refused = loombook("build", tmp_path, "--site-address", address)
    assert refused.exit_code == 2
    assert "https" in refused.output

"""A photo on a vehicle's page: folded on a phone, open on a wide page, nothing jumps, no paper."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from page_kinds import VEHICLE
from printing import print_page

pytestmark = pytest.mark.browser

FOLD = "details.photos"
JUMP = """
  const [bare, done] = arguments, image = document.querySelector('details.photos img');
  const url = image.src;
  let sum = 0;
  image.closest('details').open = true;
  image.removeAttribute('src');
  if (bare) { image.removeAttribute('width'); image.removeAttribute('height'); }
  image.scrollIntoView();
  setTimeout(function () {
    new PerformanceObserver(function (list) {
      list.getEntries().forEach(function (one) { sum += one.value; });
    }).observe({ type: "layout-shift" });
    image.onload = function () { setTimeout(function () { done(sum); }, 400); };
    image.src = url + '?again';
  }, 600);
"""
"""How much of the page jumps when the photo comes, once all else stands."""
IMAGE = """
  const image = document.querySelector('details.photos img'), box = image.getBoundingClientRect();
  return {done: image.complete && image.naturalWidth > 0, wide: box.width, high: box.height,
          alt: image.alt, room: document.documentElement.clientWidth};
"""


def loaded(browser: Any) -> Any:
    """The picture as it stands, once it has come."""
    browser.run("document.querySelector('details.photos img').scrollIntoView()")
    for _ in range(100):
        found = browser.run(IMAGE)
        if found["done"]:
            return found
        browser.driver.execute_async_script("setTimeout(arguments[0], 25)")
    raise AssertionError(found)


def test_on_a_phone_it_is_folded_and_nothing_of_it_is_asked_for(browser: Any, address: str) -> None:
    browser.resize(390)
    browser.open(f"{address}/{VEHICLE}", listening=True)
    assert browser.run(f"return document.querySelector('{FOLD}').open") is False
    assert [url for url in browser.requested() if "/photos/" in url] == []
    browser.run(f"document.querySelector('{FOLD} > summary').click()")
    found = loaded(browser)
    assert found["wide"] <= found["room"]
    assert found["alt"].startswith("a grey plug with two rows")
    assert browser.complaints() == []


def test_its_room_is_kept_before_it_has_come(browser: Any, address: str) -> None:
    browser.resize(390)
    browser.open(f"{address}/{VEHICLE}")
    browser.run(f"document.querySelector('{FOLD} img').removeAttribute('src')")
    browser.run(f"document.querySelector('{FOLD} > summary').click()")
    before = browser.run(IMAGE)
    browser.open(f"{address}/{VEHICLE}")
    browser.run(f"document.querySelector('{FOLD} > summary').click()")
    after = loaded(browser)
    assert (after["wide"], after["high"]) == (before["wide"], before["high"])
    assert after["high"] == pytest.approx(after["wide"] * 640 / 960, abs=1)


@pytest.mark.parametrize("width", [390, 1440])
def test_nothing_jumps_when_the_photo_comes(browser: Any, address: str, width: int) -> None:
    """Without the size that the page gives it, it would."""
    browser.resize(width)
    browser.open(f"{address}/{VEHICLE}")
    assert browser.run(f"return document.querySelector('{FOLD}').open") is (width > 960)
    assert browser.driver.execute_async_script(JUMP, False) == 0
    assert browser.driver.execute_async_script(JUMP, True) > 0


def test_paper_has_the_drawings_and_no_photo(browser: Any, address: str, tmp_path: Path) -> None:
    browser.open(f"{address}/{VEHICLE}")
    printed = print_page(browser, "A4", tmp_path / "page.pdf")
    assert "PlugA:mainplug" in printed.running
    assert "PhotosofplugA" not in printed.running
    browser.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    shown = browser.run(f"return document.querySelector('{FOLD}').getClientRects().length")
    browser.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    assert shown == 0

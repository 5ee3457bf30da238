"""The built site as files in Chromium: it is quiet, asks nobody, and fits a phone."""

from __future__ import annotations

import pytest

pytestmark = pytest.mark.browser

PAGES = [
    "index.html",
    "vehicles/ostrel-tansy-2017-hatch-base.html",
    "plans/ostrel-tansy-2017-hatch-base--cvn-2a.html",
    "vehicles/index.html",
    "makes/ostrel.html",
    "housings/two-row-20-latch-top.html",
    "converters/cvn-2a.html",
    "amplifiers/amn-4.html",
    "cables/five-core-18.html",
    "looms/sedge-fronts-out.html",
    "interfaces/ok-7n.html",
    "contributors/alder-pit-audio.html",
    "rules/index.html",
    "rules/PIN101.html",
    "schema/vehicle.html",
    "handbook/cautions.html",
    "handbook/numbers.html",
]


@pytest.mark.parametrize("page", PAGES)
def test_page_works_as_a_file_and_never_scrolls_sideways_on_a_phone(browser, site, page):
    """As `loombook serve` sends it, one page of each kind is opened in `test_page_kinds.py`."""
    browser.resize(390)
    browser.open(f"file://{site}/{page}", listening=True)
    assert browser.complaints() == []
    assert [url for url in browser.requested() if not url.startswith(("file:", "data:"))] == []
    assert browser.run("return document.querySelectorAll('h1').length") == 1
    assert browser.run("return getComputedStyle(document.body).fontFamily") != ""
    for width in (390, 360):
        browser.resize(width)
        assert browser.run("return document.documentElement.scrollWidth") <= width


def test_vehicle_page_shows_both_faces_of_every_plug(browser, address):
    browser.open(f"{address}/vehicles/ostrel-tansy-2017-hatch-base.html")
    captions = browser.run(
        "return [...document.querySelectorAll('svg')].map(s => s.textContent).join(' ')"
    )
    plugs = browser.run("return document.querySelectorAll('[id^=plug-]').length")
    assert plugs >= 2
    assert captions.count("looking at the wires entering") >= plugs
    assert captions.count("looking into the open face") >= plugs


def test_every_page_about_a_car_carries_its_cautions(browser, address):
    for page in PAGES[1:3]:
        browser.open(f"{address}/{page}")
        text = str(browser.run("return document.body.innerText"))
        assert "battery negative off" in text.lower()
        assert "vehicle maker" in text.lower()
        assert "invented" in text.lower()


def test_the_plan_names_each_terminal_once(browser, address):
    browser.open(f"{address}/plans/ostrel-tansy-2017-hatch-base--cvn-2a.html")
    text = str(browser.run("return document.querySelector('main').innerText"))
    for cavity in ("A.11", "A.12", "A.13", "A.14", "A.7"):
        assert cavity in text


def test_what_is_folded_on_a_car_s_page_opens_for_a_link_to_it(browser, address):
    page = f"{address}/vehicles/ostrel-tansy-2017-hatch-base.html"
    shut = "return document.querySelector('#channels details').open"
    browser.open(page)
    assert browser.run(shut) is False
    browser.open(f"{page}#channels")
    assert browser.run(shut) is True
    browser.open(f"{page}#car-fuses-title")
    assert browser.run("return document.getElementById('car-fuses').open") is True


def test_paper_has_what_is_folded_on_a_car_s_page(browser, address):
    browser.open(f"{address}/vehicles/ostrel-tansy-2017-hatch-base.html")
    shut = "return [...document.querySelectorAll('details.fold')].filter(d => !d.open).length"
    before = browser.run(shut)
    browser.run("window.dispatchEvent(new Event('beforeprint'))")
    assert before > 5 and browser.run(shut) == 0
    browser.run("window.dispatchEvent(new Event('afterprint'))")
    assert browser.run(shut) == before


@pytest.mark.parametrize("car", ["brantmoor-leto-2019-wagon-mid", "ostrel-tansy-2017-hatch-base"])
def test_a_plan_has_its_pins_and_its_first_reading_on_two_screens_of_a_phone(browser, site, car):
    browser.resize(390)
    found = [page for page in sorted((site / "plans").glob(f"{car}--*.html"))
             if 'class="lb-drawing lb-wiring"' in page.read_text("utf-8")]  # fmt: skip
    assert len(found) > 3
    for page in found:
        browser.open(page.as_uri())
        bottoms = browser.run(
            "return ['.fed li:last-child', '#wiring .wiring-piece svg', 'table.bay tr[data-ask]']"
            ".map(css => document.querySelector(css).getBoundingClientRect().top + scrollY)"
        )
        assert bottoms == sorted(bottoms) and bottoms[-1] <= 2 * 844, page.name


# Of each plug beside the answers: the drawing that it refers to, and where it is painted.
IN_SIGHT = """
return [...document.querySelectorAll(".in-sight use")].map(use => {
  const box = use.getBoundingClientRect(), of = document.querySelector(use.getAttribute("href"));
  return {drawn: !!of && of.matches("svg.lb-plug"), bottom: box.bottom + scrollY, width: box.width};
});
"""


def test_a_desk_has_the_plug_beside_the_answers_and_a_phone_the_answers_alone(browser, site):
    browser.resize(1440)
    browser.open(f"file://{site}/{PAGES[1]}")
    faces = browser.run(IN_SIGHT)
    assert len(faces) == 2  # both faces of plug A, on which each answer stands
    assert all(face["drawn"] and face["width"] > 300 and face["bottom"] < 900 for face in faces)
    browser.resize(390)
    browser.open(f"file://{site}/{PAGES[1]}")
    assert all(face["width"] == 0 for face in browser.run(IN_SIGHT))

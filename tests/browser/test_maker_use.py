"""The page "Take down a car" in use: slips, drafts, screens, keys, and the file that leaves it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from maker_page import MakerPage, choose_shell, describe_car, describe_plug, describe_rest

pytestmark = pytest.mark.browser


@pytest.fixture
def page(browser: Any, address: str) -> MakerPage:
    return MakerPage(browser, address).emptied()


# -- slips while typing --------------------------------------------------------------------------
def slips(page: MakerPage) -> str:
    return str(
        page.browser.run(
            "return [...document.querySelectorAll('#maker-fields .maker-slip')]"
            ".map(p => p.textContent).filter(Boolean).join(' | ')"
        )
    )


def settled(page: MakerPage) -> str:
    page.browser.driver.execute_async_script("setTimeout(arguments[0], 200)")
    return slips(page)


def test_a_slip_is_said_beside_its_field_and_goes_away(page: MakerPage) -> None:
    describe_car(page, "Heron", "hatch")
    page.answer("scope.year_from", "19O9")
    assert "is no number" in settled(page)
    page.answer("scope.year_from", "1909")
    assert "less than 1980" in settled(page)
    page.answer("scope.trims", "Sport Line")
    assert "did you mean sport-line?" in settled(page)
    page.answer("scope.trims", "sport-line")
    page.answer("scope.year_from", "2019")
    assert settled(page) == ""


def test_a_reading_that_its_wire_cannot_give_is_said(page: MakerPage) -> None:
    describe_car(page, "Heron", "hatch")
    describe_rest(page)
    describe_plug(page, "main plug", "radio")
    choose_shell(page, 0, 8, "8-cavity block A (supplies)")
    page.cavity("1")
    page.answer("plugs.0.pins.0.function", "constant")
    page.reading("plugs.0.pins.0.readings", "run 0.2 V battery 12.4")
    assert "but a constant supply reads" in settled(page)
    page.press("no terminal in it")
    page.pin(0, "2", "speaker", channel="front-left", leg="positive")
    findings, _ = page.take()
    said = " ".join(findings)
    assert "PIN104" in said
    assert "PIN112" in said


def test_a_speaker_entry_comes_and_goes_with_its_pin(page: MakerPage) -> None:
    describe_car(page, "Heron", "hatch")
    describe_plug(page, "main plug", "radio")
    choose_shell(page, 0, 8, "8-cavity block A (supplies)")
    page.cavity("1")
    page.answers(plugs__0__pins__0__function="speaker", plugs__0__pins__0__channel="sub")
    page.answer("plugs.0.pins.0.channel", "centre")
    page.press("maker-pin-done")
    _, files = page.take()
    (text,) = files.values()
    assert "{channel: centre, driven_by: radio}" in text
    assert "sub" not in text


def test_a_line_that_is_no_reading_stays_and_says_what_to_type(page: MakerPage) -> None:
    describe_car(page, "Heron", "hatch")
    describe_rest(page)
    describe_plug(page, "main plug", "radio")
    choose_shell(page, 0, 8, "8-cavity block A (supplies)")
    page.cavity("3")
    with pytest.raises(AssertionError, match="asleep 12 V"):
        page.reading("plugs.0.pins.0.readings", "asleep 12 V")
    assert "minutes MINUTES" in slips(page)


# -- drafts --------------------------------------------------------------------------------------
def drafts(page: MakerPage) -> str:
    return str(page.browser.run("return document.getElementById('maker-drafts').innerText"))


@pytest.mark.parametrize("how", ["http", "file"])
def test_drafts_are_kept_opened_and_deleted(
    browser: Any, address: str, site: Path, how: str
) -> None:
    place = address if how == "http" else site.as_uri()
    page = MakerPage(browser, place).emptied()
    assert "No draft" in drafts(page)
    describe_car(page, "Heron", "hatch")
    page.press("maker-leave")
    describe_car(page, "Plover", "wagon")
    page = MakerPage(browser, place)
    assert "Ardent Heron 2019 hatch" in drafts(page)
    page.press("Open Ardent Plover 2019 wagon")
    model = "return document.getElementById('maker-vehicle-model').value"
    assert browser.run(model) == "Plover"
    page.press("maker-leave")
    page.press("Delete")
    page.press("Really delete?")
    assert "Deleted: Ardent Plover" in drafts(page)
    page.press("Forget it for good")
    assert "Plover" not in drafts(page)
    assert "Heron" in drafts(page)
    keys = browser.run("return Object.keys(localStorage)")
    assert all(key.startswith("loombook:") for key in keys)
    assert not any("Plover" in str(browser.run(f"return localStorage[{key!r}]")) for key in keys)
    assert browser.complaints() == []


def test_a_browser_that_keeps_nothing_is_said_so(page: MakerPage) -> None:
    page.browser.run("Storage.prototype.setItem = () => { throw new Error('refused'); }")
    describe_car(page, "Heron", "hatch")
    status = page.browser.run("return document.getElementById('maker-status').textContent")
    assert "keeps no drafts" in str(status)


def test_a_broken_draft_costs_no_other(page: MakerPage, address: str) -> None:
    describe_car(page, "Heron", "hatch")
    page.browser.run("localStorage.setItem('loombook:maker:draft:x', '{\"record\": 3}')")
    again = MakerPage(page.browser, address)
    assert "Heron" in drafts(again)
    assert again.browser.run("return document.querySelectorAll('#maker-drafts li').length") == 1


# -- hands and screens ---------------------------------------------------------------------------
SMALL = """
  return [...document.querySelectorAll('#maker-page button, #maker-page input, #maker-page select,'
    + '#maker-page textarea, #maker-page summary, #maker-page [data-cavity] .maker-sheet')]
    .filter(e => e.checkVisibility())
    .map(e => [e.outerHTML.slice(0, 80), e.getBoundingClientRect()])
    .filter(e => e[1].width < 47.5 || e[1].height < 47.5).map(e => e[0]);
"""


@pytest.mark.parametrize("width", [390, 1280])
def test_every_step_fits_the_screen_and_every_control_is_large(
    browser: Any, address: str, width: int
) -> None:
    browser.resize(width)
    page = MakerPage(browser, address)
    describe_car(page, "Heron", "hatch")
    describe_rest(page)
    describe_plug(page, "main plug", "radio")
    choose_shell(page, 0, 20, "20-cavity radio housing, two rows of ten")
    page.cavity("2")
    steps = browser.run("return [...document.querySelectorAll('.maker-step')].map(b => b.id)")
    assert isinstance(steps, list)
    for step in [None, *steps]:
        if step:
            page.press(step)
        assert browser.run("return document.documentElement.scrollWidth") <= width, step
        assert browser.run(SMALL) == [], step
    assert browser.run("return document.querySelectorAll('[style]').length") == 0


def test_a_cavity_is_chosen_by_keys_alone(page: MakerPage) -> None:
    describe_car(page, "Heron", "hatch")
    describe_plug(page, "main plug", "radio")
    choose_shell(page, 0, 8, "8-cavity block A (supplies)")
    page.browser.run(
        "const c = document.querySelector('[data-cavity=\"4\"]'); c.focus();"
        "c.dispatchEvent(new KeyboardEvent('keydown', {key: 'Enter', bubbles: true}))"
    )
    head = page.browser.run("return document.activeElement.textContent")
    assert head == "Plug A, cavity 4"


def test_every_required_key_of_the_schema_has_a_field(page: MakerPage) -> None:
    """Of an empty record, every missing answer that is found has a field in its step."""
    page.begin()
    lost = page.browser.run(
        "const lost = []; document.querySelectorAll('.maker-step').forEach(s => { s.click();"
        " if (/to answer/.test(s.textContent)) { const shown = "
        "[...document.querySelectorAll('#maker-fields .maker-due')].filter(m => m.textContent)"
        ".length; const said = Number(s.querySelector('small').textContent.split(' ')[0]);"
        " if (shown !== said) lost.push(s.textContent + ' but ' + shown); } }); return lost"
    )
    assert lost == []


def test_the_file_is_downloaded_as_it_is_shown(page: MakerPage, tmp_path: Path) -> None:
    page.browser.driver.execute_cdp_cmd(
        "Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": str(tmp_path)}
    )
    describe_car(page, "Heron", "hatch")
    _, files = page.take()
    page.press("Download")
    saved = tmp_path / "ardent-heron-2019-hatch.yaml"
    for _ in range(50):
        if saved.is_file():
            break
        page.browser.driver.execute_async_script("setTimeout(arguments[0], 100)")
    assert saved.read_text("utf-8") == next(iter(files.values()))
    assert page.browser.complaints() == []


def test_it_is_found_from_home_and_says_what_is_checked_where(browser: Any, address: str) -> None:
    for page, target in (
        ("index.html", "handbook/add-your-car.html"),
        ("handbook/add-your-car.html", "../record-maker.html"),
        ("measure/index.html", "../record-maker.html"),
    ):
        browser.open(f"{address}/{page}")
        links = browser.run("return [...document.links].map(a => a.getAttribute('href'))")
        assert target in links
    browser.open(f"{address}/record-maker.html")
    checks = browser.run("return document.getElementById('checks').textContent")
    assert "PIN101" in str(checks).split("Checked only")[0]
    assert "EVD102" in str(checks).split("Checked only")[1]

"""The bay sheet on a phone: typed, judged, kept, exported, and back in the book."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from chromium import CHROMIUM, Browser
from evidence_book import BRINDLE, JOB, TANSY, small_book, vehicle_file
from shipped_book import loombook

from builder.book import open_book
from builder.loading import load_text
from builder.pipeline.answers.packs import packed
from builder.planning.work_pack import BayTest
from builder.proof.band import Band, limit_at, where_in
from builder.schema_check import check_shape

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
PAGE = f"jobs/{JOB}.html"
PLAN = f"plans/{BRINDLE}--cvn-2p.html"
TYPE = """
const [test, name, text] = arguments;
const cell = [...document.querySelectorAll('[data-ask]')]
  .find(one => window.loombookBay.askOf(one).test === test);
const labels = [...cell.querySelectorAll('.bay-fill label')];
const field = labels.find(label => label.textContent.startsWith(name)).querySelector('input');
field.value = text;
field.dispatchEvent(new Event('input'));
return cell.querySelector('.bay-mark').textContent;
"""
CHOOSE = """
const field = document.querySelector(`[name=bay-${arguments[0]}]`);
field.value = arguments[1];
field.dispatchEvent(new Event(field.tagName === 'SELECT' ? 'change' : 'input'));
"""
REFUSING = (
    "Object.defineProperty(window, 'localStorage',"
    " {get() { throw new DOMException('no', 'SecurityError'); }})"
)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = small_book(tmp_path_factory.mktemp("bay") / "book")
    build(folder)
    return folder


def build(book: Path) -> None:
    done = loombook("build", book, "--output", book.parent / "site")
    assert done.exit_code == 0, done.output


def address(book: Path, page: str = PAGE) -> str:
    return f"file://{book.parent / 'site' / page}"


@pytest.fixture
def phone(book: Path, browser: Browser, tmp_path: Path) -> Iterator[Browser]:
    browser.as_phone(tmp_path)
    browser.open(address(book))
    yield browser
    browser.run("try { localStorage.clear() } catch (refused) {}")


def type_in(browser: Browser, test: str, text: str, name: str = "Reads") -> str:
    return str(browser.run(TYPE, test, name, text))


def choose(browser: Browser, name: str, value: str) -> None:
    browser.run(CHOOSE, name, value)


def press(browser: Browser, words: str, within: str = "main") -> None:
    script = (
        "[...document.querySelectorAll(`${arguments[1]} button`)]"
        ".find(one => one.textContent === arguments[0]).click()"
    )
    browser.run(script, words, within)


def said(browser: Browser) -> str:
    return str(browser.run("return document.querySelector('.bay-said').textContent"))


def counted(browser: Browser) -> str:
    return str(browser.run("return document.querySelector('.bay-count').textContent"))


def exported(browser: Browser, folder: Path) -> Path:
    press(browser, "Download evidence")
    assert said(browser).startswith("Saved as bay-sheet-"), said(browser)
    return saved(browser, folder)


def saved(browser: Browser, folder: Path) -> Path:
    for _ in range(100):
        found = [one for one in folder.glob("bay-sheet-*.yaml") if one.stat().st_size]
        if found:
            return found[0]
        browser.driver.execute_async_script("setTimeout(arguments[0], 50)")
    raise AssertionError("nothing was saved")


def of_sheet(path: Path) -> dict[str, Any]:
    loaded = load_text(path.read_bytes(), path.name)
    assert loaded.data is not None, loaded.findings
    assert check_shape("sheet", loaded.data, loaded.source_map, path.name) == []
    return dict(loaded.data)


def lines_of(book: Path) -> list[BayTest]:
    return [test for test in packed(open_book(book), JOB).pack.tests if test.quantity != "check"]


def accepted_at(record: Path, place: str) -> int:
    data = load_text(record.read_bytes(), record.name).data
    assert data is not None
    return next(at for at, one in enumerate(data["accept"]) if one.get("at") == place)


BATTERIES = (None, 11.9, 12.2, 12.6, 13.5, 14.2)
CLAMPS = (None, 0.4, 5.2, 18.1, 140.0)


def judged_by(test: BayTest) -> tuple[Band, tuple[float | None, ...]]:
    """What passes, by what is typed beside it: amperes where a line asks for them."""
    by_current = test.band_by_current
    return (test.band, BATTERIES) if by_current is None else (by_current, CLAMPS)


def around(band: Band, beside: float | None) -> Iterator[float]:
    """The bounds of a band, and numbers as near to them as matters on either side."""
    for bound in {band.low, band.high} - {None}:
        assert bound is not None
        at = limit_at(bound, beside or 0.0)
        yield from (at, math.nextafter(at, -math.inf), math.nextafter(at, math.inf))
        yield from (at - 1e-8, at + 1e-8)


def test_each_bound_is_judged_as_in_the_book(book: Path, phone: Browser) -> None:
    tried = 0
    for test in lines_of(book):
        asks = phone.run(
            "return [...document.querySelectorAll('[data-ask]')].map(window.loombookBay.askOf)"
        )
        ask = next(a for a in asks if a["test"] == test.id)  # type: ignore[attr-defined]
        low, high = ask.get("span", (-math.inf, math.inf))
        band, besides = judged_by(test)
        given = [(beside, value) for beside in besides for value in around(band, beside)
                 if low <= value <= high and "e" not in repr(value)]  # fmt: skip
        got = phone.run(
            "const ask = {...arguments[1], unit: ''};"
            "return arguments[0].map(one => window.loombookBay.verdict(one[1], ask, one[0]).state)",
            [("" if at is None else str(at), repr(value).replace(".", ",")) for at, value in given],
            ask,
        )
        judged = [where_in(band, value, beside) for beside, value in given]
        assert got == judged, test.id
        tried += len(given)
    assert tried > 600


def test_what_moves_with_the_battery_is_judged_beside_it(phone: Browser) -> None:
    band = phone.run("return document.querySelector(`tr:has([id$='a-7-acc']) .band`).textContent")
    assert band == "battery − 0.5 V to battery + 0.3 V"
    assert type_in(phone, "a-7-acc", "13.40") == "? type the battery's volts beside it"
    type_in(phone, "a-7-acc", "13.50", "Battery")
    assert type_in(phone, "a-7-acc", "13.40") == "✓ in band"
    assert type_in(phone, "a-7-acc", "12.99") == "✗ too low"
    type_in(phone, "a-7-acc", "12,20", "Battery")
    assert type_in(phone, "a-7-acc", "12,05") == "✓ in band"
    assert type_in(phone, "a-7-acc", "12,51") == "✗ too high"


def test_volts_are_judged_by_the_amperes_beside_them_and_leave_with_them(
    phone: Browser, tmp_path: Path
) -> None:
    line = "sub-amp-supply-drop"
    band = phone.run(f"return document.querySelector(`tr:has([id$='{line}']) .band`).textContent")
    assert band == "at most 9.19 mΩ (V ÷ A)"
    assert type_in(phone, line, "0.10") == "? type the amperes beside it"
    type_in(phone, line, "5", "Clamp")
    assert type_in(phone, line, "0.10") == "✗ 20.0 mΩ, too high"
    assert type_in(phone, line, "0,034") == "✓ 6.8 mΩ, in band"
    type_in(phone, line, "0", "Clamp")
    assert type_in(phone, line, "0,034") == "? type the amperes beside it"
    type_in(phone, line, "5,0", "Clamp")
    choose(phone, "by", "North Bay")
    assert of_sheet(exported(phone, tmp_path))["results"] == [
        {"test": line, "value": 0.034, "current_a": 5}
    ]


def test_what_is_typed_is_judged_in_words_as_it_is_typed(phone: Browser) -> None:
    assert type_in(phone, "battery-rest", "12,2") == "✓ in band"
    assert type_in(phone, "battery-rest", "12.19") == "✗ too low"
    assert type_in(phone, "battery-rest", "twelve") == "? no number: type one such as 12.4"
    assert type_in(phone, "battery-rest", "124") == "? cannot be: look for a slipped decimal point"
    assert type_in(phone, "battery-rest", "") == ""
    assert type_in(phone, "a-7-asleep", "0.51") == "✗ too high"
    assert type_in(phone, "a-7-asleep", "−0,5") == "✓ in band"


def test_ohms_can_be_open_and_thousands_are_typed_as_printed(book: Path, phone: Browser) -> None:
    assert type_in(phone, "a-11-ohms-to-body", "9,9") == "✗ too low"
    assert type_in(phone, "a-11-ohms-to-body", "10") == "✓ in band"
    assert type_in(phone, "a-11-ohms-to-body", "OL") == "✓ in band"
    assert type_in(phone, "a-11-ohms-to-a-12", "open") == "✗ too high"
    assert type_in(phone, "battery-rest", "open") == "? only ohms can be open"


def test_fields_fit_gloves_and_the_screen(phone: Browser) -> None:
    phone.run("location.hash = '#tests'")
    phone.unfold()
    small = phone.run(
        "return [...document.querySelectorAll('.bay-panel, .bay-fill')].flatMap("
        "  part => [...part.querySelectorAll('input, select, button')])"
        ".filter(one => one.getBoundingClientRect().height < 47.9"
        "  || one.getBoundingClientRect().width < 47.9).map(one => one.outerHTML)"
    )
    assert small == []
    assert phone.run("return document.documentElement.scrollWidth") == 390
    assert phone.run(
        "return [...document.querySelectorAll('.bay-fill input')]"
        ".every(one => ['decimal', 'numeric'].includes(one.inputMode))"
    )
    assert phone.complaints() == []


def test_figures_are_there_again_and_may_be_cleared(book: Path, phone: Browser) -> None:
    type_in(phone, "battery-rest", "12,4")
    type_in(phone, "a-7-asleep", "3")
    choose(phone, "by", "North Bay")
    phone.open(address(book))
    assert counted(phone).startswith("2 of ")
    assert counted(phone).endswith("1 out of band")
    assert phone.run("return document.querySelector('[name=bay-by]').value") == "North Bay"
    press(phone, "Clear")
    press(phone, "Keep")
    assert counted(phone).startswith("2 of ")
    press(phone, "Clear")
    press(phone, "Yes, clear")
    assert counted(phone).startswith("0 of ")
    phone.open(address(book))
    assert counted(phone).startswith("0 of ")
    assert phone.run("return document.querySelector('[name=bay-by]').value") == "North Bay"


def test_another_page_does_not_show_them(book: Path, phone: Browser) -> None:
    type_in(phone, "battery-rest", "12,4")
    phone.open(address(book, PLAN))
    assert counted(phone).startswith("0 of ")


def test_figures_for_an_earlier_state_are_told_and_can_still_be_exported(
    book: Path, phone: Browser, tmp_path: Path
) -> None:
    choose(phone, "by", "North Bay")
    type_in(phone, "battery-rest", "12,4")
    record = vehicle_file(book, TANSY)
    before = record.read_bytes()
    record.write_bytes(before.replace(b"stripe: white", b"stripe: blue"))
    try:
        build(book)
        phone.open(address(book))
        assert counted(phone).startswith("0 of ")
        note = str(phone.run("return document.querySelector('.bay-earlier').innerText"))
        assert "Typed for an earlier state of this plan" in note
        assert "1 of " in note and "They are not applied here." in note
        press(phone, "Download them", ".bay-earlier")
        path = saved(phone, tmp_path)
        assert of_sheet(path)["results"] == [{"test": "battery-rest", "value": 12.4}]
        press(phone, "Clear them", ".bay-earlier")
        phone.open(address(book))
        assert phone.run("return document.querySelector('.bay-earlier')") is None
    finally:
        record.write_bytes(before)
        build(book)


def test_a_browser_that_keeps_nothing_says_so_and_still_exports(
    book: Path, phone: Browser, tmp_path: Path
) -> None:
    added = phone.driver.execute_cdp_cmd(
        "Page.addScriptToEvaluateOnNewDocument", {"source": REFUSING}
    )
    try:
        phone.open(address(book))
        assert "This browser keeps no figures" in str(
            phone.run("return document.querySelector('.bay-refused').innerText")
        )
        type_in(phone, "battery-rest", "12,4")
        choose(phone, "by", "North Bay")
        assert of_sheet(exported(phone, tmp_path))["session"]["by"] == "north-bay"
    finally:
        phone.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", added)


def test_what_is_missing_is_said_before_anything_is_exported(phone: Browser) -> None:
    press(phone, "Download evidence")
    assert said(phone) == "Nothing is filled in yet."
    type_in(phone, "battery-rest", "12,4")
    press(phone, "Download evidence")
    assert said(phone) == "Still missing: who measured."


def test_the_export_holds_every_kind_of_line(book: Path, phone: Browser, tmp_path: Path) -> None:
    choose(phone, "by", "North Bay")
    choose(phone, "impedance", "10,5")
    type_in(phone, "battery-rest", "12,4")
    type_in(phone, "a-7-asleep", "0,03")
    type_in(phone, "a-7-asleep", "12,6", "Battery")
    type_in(phone, "a-7-asleep", "65", "Minutes")
    type_in(phone, "a-7-retained", "12.3")  # without the battery: a result, no evidence
    type_in(phone, "a-7-acc", "13.4")
    type_in(phone, "a-7-acc", "13.5", "Battery")
    type_in(phone, "a-11-ohms-to-a-12", "3,3")
    type_in(phone, "a-11-ohms-to-body", "open")
    phone.run(
        "const cell = [...document.querySelectorAll('[data-ask]')]"
        ".find(one => window.loombookBay.askOf(one).test === 'lamps-before');"
        "const field = cell.querySelector('select'); field.value = 'yes';"
        "field.dispatchEvent(new Event('change'));"
    )
    path = exported(phone, tmp_path)
    sheet = of_sheet(path)
    assert (sheet["vehicle"], sheet["job"]) == (TANSY, JOB)
    assert sheet["record"] == packed(open_book(book), JOB).digest
    assert sheet["session"]["meter"] == {"impedance_mohm": 10.5}
    assert sheet["session"]["car"]["tag"] == "moss-4"
    place = {"plug": "A", "cavity": 11, "state": "unplugged", "quantity": "ohm"}
    assert sheet["readings"] == [
        {"plug": "A", "cavity": 7, "state": "asleep", "quantity": "dc_v", "value": 0.03,
         "minutes": 65, "battery_v": 12.6},
        {"plug": "A", "cavity": 7, "state": "accessory", "quantity": "dc_v", "value": 13.4,
         "battery_v": 13.5},
        {**place, "against": 12, "value": 3.3},
        {**place, "against": "body", "value": "open"},
    ]  # fmt: skip
    assert sheet["results"] == [
        {"test": "battery-rest", "value": 12.4},
        {"test": "a-7-asleep", "value": 0.03},
        {"test": "a-7-retained", "value": 12.3},
        {"test": "a-7-acc", "value": 13.4, "battery_v": 13.5},
        {"test": "a-11-ohms-to-a-12", "value": 3.3},
        {"test": "a-11-ohms-to-body", "passed": "yes"},
        {"test": "lamps-before", "passed": "yes"},
    ]
    assert "# not among the readings: a-7-retained, without battery_v" in path.read_text("utf-8")
    done = loombook("evidence", "add", path, "--book", book, "--dry-run")
    assert "A.11: plug off: 3.30 Ω" in done.output and "BAY104" not in done.output


def test_from_the_phone_into_the_book_the_grade_rises_and_the_plan_stands(
    phone: Browser, tmp_path: Path
) -> None:
    book = small_book(tmp_path / "own" / "book")
    build(book)
    phone.open(address(book, PLAN))
    test = "a-11-radio-on-50ma"
    type_in(phone, test, "12,4", "Battery")
    assert type_in(phone, test, "11,9") == "✓ in band"
    for name, value in (("by", "Third Bay"), ("tag", "zz1"), ("date", "2025-11-02")):
        choose(phone, name, value)
    path = exported(phone, tmp_path)
    done = loombook("evidence", "add", path, "--book", book)
    assert "A.11: 0.55 check first -> 0.80 good" in done.output
    assert "plan with cvn-2p: probe plan -> tap plan" in done.output
    checked = loombook("check", book)
    assert checked.exit_code == 0, checked.output
    build(book)
    phone.open(address(book, PLAN))
    assert "Tap plan" in str(phone.run("return document.title"))
    assert "Typed for an earlier state" in str(
        phone.run("return document.querySelector('.bay-earlier').innerText")
    )

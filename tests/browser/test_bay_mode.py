"""A whole job worked through on a phone, one step or one reading a screen, without a signal."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from chromium import CHROMIUM, Browser
from evidence_book import JOB, small_book
from selenium.common.exceptions import WebDriverException
from test_bay_sheet import address, build, choose, of_sheet, press, saved
from test_page_kinds import AXE

from builder.book import open_book
from builder.pipeline.answers.packs import packed
from builder.pipeline.answers.returned import comeback_of
from builder.planning.comeback.failed_lines import failed_lines
from builder.planning.work_pack import WorkPack

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
FAILING = ("ground-ohms", "whine")
NOW = """
const now = document.querySelector('.bay-now');
const ask = now.dataset.ask ? window.loombookBay.askOf(now) : {};
return {
  test: ask.test || '', check: ask.quantity === 'check',
  step: now.tagName === 'LI' ? Number(now.value) : 0,
  end: now.classList.contains('bay-panel'), seen: now.getBoundingClientRect().height > 20,
  where: document.querySelector('.bay-bar [role=status]').innerText,
  then: document.querySelector('.bay-then').innerText,
  next: document.querySelector('.bay-next').innerText,
  ringed: now.querySelectorAll('.bay-faces figure .lb-ring').length,
  wide: document.documentElement.scrollWidth - innerWidth,
  shown: [...document.querySelectorAll('h1, h2, h3, .work-steps > li, tr[data-ask]')]
    .filter(one => one.getClientRects().length).length,
};
"""
FILL = """
const [good] = arguments, row = document.querySelector('.bay-now');
const ask = window.loombookBay.askOf(row);
const bay = window.loombookBay, pair = window.loombookJudge.pair, BATTERY = 12.4;
function put(field, value, kind) {
  field.value = value;
  field.dispatchEvent(new Event(kind, {bubbles: true}));
}
if (ask.quantity === 'check') {
  put(row.querySelector('.bay-fill select'), good ? 'yes' : 'no', 'change');
  return good ? 'yes' : 'no';
}
const byCurrent = ask.mohm ? [[ask.mohm / 1000, 0]] : null;  // BATTERY is typed as amperes then
const ends = (byCurrent || [ask.low, ask.high]).filter(Boolean)
  .map(end => pair(end)[0] * BATTERY + pair(end)[1]);
const least = ends[0] ?? 0, most = ends[ends.length - 1] ?? 1;
const mid = (least + most) / 2;
const tried = [mid, least * 1.05, most * 0.95, least, most, most * 3, least / 3, -40];
const fields = row.querySelectorAll('.bay-fill input');
const thousands = bay.unitOf(ask) === 'kΩ' ? 1000 : 1;
const texts = tried.map(one => String(Math.round(one / thousands * 1e6) / 1e6));
const wanted = good ? ['in', 'none'] : ['low', 'high'];
const text = texts.find(one => wanted.includes(bay.verdict(one, ask, '12.4').state));
put(fields[0], text, 'input');
if (fields[1] && bay.besideName(ask) === (ask.also || [])[0]) { put(fields[1], '12.4', 'input'); }
return text;
"""
FIELD = "return document.querySelector('.bay-now .bay-fill :is(input, select)').value"


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = small_book(tmp_path_factory.mktemp("mode") / "book")
    build(folder)
    return folder


@pytest.fixture(scope="module")
def pack(book: Path) -> WorkPack:
    return packed(open_book(book), JOB).pack


@pytest.fixture
def phone(book: Path, browser: Browser, tmp_path: Path) -> Iterator[Browser]:
    browser.as_phone(tmp_path)
    browser.open(address(book))
    begin(browser)
    yield browser
    browser.run("localStorage.clear()")


def begin(browser: Browser) -> None:
    press(browser, "Work through it, one step a screen")


def now(browser: Browser) -> dict[str, Any]:
    found = browser.run(NOW)
    assert isinstance(found, dict)
    assert found["seen"]
    assert found["wide"] <= 0
    assert found["shown"] <= 1
    return found


def onward(browser: Browser) -> dict[str, Any]:
    browser.run("document.querySelector('.bay-next').click()")
    return now(browser)


def walk(browser: Browser, until: str | None = None) -> list[dict[str, Any]]:
    """Go on to the screen of a test, or to the end, with each reading taken on the way."""
    met = [now(browser)]
    while not met[-1]["end"] and met[-1]["test"] != until:
        if met[-1]["test"]:
            browser.run(FILL, met[-1]["test"] not in FAILING)
        met.append(onward(browser))
        assert len(met) < 300
    return met


def order_of(pack: WorkPack) -> list[int | str]:
    """Each step and behind it the lines that are read in it, as paper has them."""
    return [each for step in pack.steps for each in (step.number, *step.tests)]


def test_every_step_and_line_comes_once_in_the_order_of_the_sheets(
    phone: Browser, pack: WorkPack
) -> None:
    met = walk(phone)
    assert [each["step"] or each["test"] for each in met[1:-1]] == order_of(pack)
    assert sorted(filter(None, (each["test"] for each in met))) == sorted(t.id for t in pack.tests)
    pins = {test.id for test in pack.tests if test.reading and test.reading.cavity}
    assert pins
    assert {each["test"] for each in met if each["ringed"] == 2} == pins  # on both faces
    said = [each["where"].split("\n")[0] for each in met]
    assert said[0] == "Cautions"
    assert said[1] == f"Step 1 of {len(pack.steps)}"
    assert said[-1] == "All steps gone through"


def test_the_first_screen_says_every_caution_whole(phone: Browser) -> None:
    begin(phone)
    shown = phone.run(
        "return [...document.querySelectorAll('.sheet-cautions.bay-now p')]"
        ".map(p => [p.checkVisibility(), p.scrollHeight <= p.clientHeight])"
    )
    assert isinstance(shown, list) and len(shown) > 1
    assert all(seen and whole for seen, whole in shown), shown


def test_a_whole_job_with_two_failures_a_reload_a_kill_and_an_undo(
    book: Path, phone: Browser, pack: WorkPack, tmp_path: Path
) -> None:
    choose(phone, "by", "third-bay")
    walk(phone, "ground-ohms")
    phone.run(FILL, False)
    assert now(phone)["next"] == "Failed: next"
    onward(phone)
    phone.driver.refresh()  # a reload
    before = now(phone)
    assert before["test"] != "ground-ohms"
    phone.run("document.querySelector('.bay-undo').click()")
    assert now(phone)["test"] == "ground-ohms"
    assert phone.run(FIELD) == ""  # what stood there before it
    walk(phone, "subwoofer-gain")
    killed(phone, address(book))
    assert now(phone)["test"] == "subwoofer-gain"
    last = walk(phone)[-1]
    assert last["then"] == "Nothing is open."
    press(phone, "Download evidence")
    sheet = of_sheet(saved(phone, tmp_path))
    results = {each["test"]: each for each in sheet["results"]}
    assert results.keys() == {test.id for test in pack.tests}
    assert results["whine"]["passed"] == "no"
    assert [test.id for test in pack.tests if failed(results[test.id], test)] == list(FAILING)


CAUSES = """
const said = document.querySelector('.bay-now .bay-causes');
return said && {
  does: [...said.querySelectorAll('li')].map(one => one.firstChild.textContent),
  next: said.querySelector('.bay-next-reading')?.textContent || '',
  seen: said.getBoundingClientRect().height > 20,
};
"""
JOB_BAR = "return document.querySelector('.bay-job').textContent"


def test_a_failed_line_says_its_likely_causes_and_the_next_reading(
    book: Path, phone: Browser, pack: WorkPack
) -> None:
    back = comeback_of(packed(open_book(book), JOB))
    total = len(pack.tests)
    assert phone.run(JOB_BAR) == f"Planned: 0 of {total} read"
    for line in ("ground-ohms", "sub-amp-turn-on-radio-on", "whine"):
        walk(phone, line)
        phone.run(FILL, True)
        assert phone.run(CAUSES) is None
        phone.run(FILL, False)
        said = phone.run(CAUSES)
        assert isinstance(said, dict) and said["seen"]
        sides = [[cause.remedy for cause in side.causes] for side in failed_lines(back)[line]]
        assert said["does"] in sides and said["does"]
        read = [side.next for side in failed_lines(back)[line] if side.next]
        assert any(one.test.what in said["next"] for one in read) or not read
        assert ", 1 failed" in str(phone.run(JOB_BAR)) or line != "ground-ohms"
    assert str(phone.run(JOB_BAR)).startswith("A line failed: ")


def test_a_pin_that_reads_otherwise_is_not_joined(phone: Browser) -> None:
    walk(phone, "a-7-acc")
    phone.run(FILL, False)
    said = phone.run("return document.querySelector('.bay-now .bay-causes').textContent")
    assert "join nothing to it" in str(said)


def killed(browser: Browser, page: str) -> None:
    """The page goes without a word to it, as when a phone needs the room."""
    first = browser.driver.current_window_handle
    browser.driver.switch_to.new_window("tab")
    fresh = browser.driver.current_window_handle
    browser.driver.switch_to.window(first)
    with suppress(WebDriverException):
        browser.driver.execute_cdp_cmd("Page.crash", {})
    browser.driver.switch_to.window(fresh)
    browser.resize(390)
    browser.driver.get(page)


def failed(result: dict[str, Any], test: Any) -> bool:
    if "passed" in result:
        return bool(result["passed"] == "no")
    at = result.get("battery_v", 0.0)
    low, high = test.band
    return (low is not None and result["value"] < low[0] * at + low[1] - 1e-9) or (
        high is not None and result["value"] > high[0] * at + high[1] + 1e-9
    )


def test_undo_brings_back_what_stood_there(phone: Browser) -> None:
    walk(phone, "battery-rest")
    phone.run(FILL, True)
    good = phone.run(FIELD)
    onward(phone)
    phone.run("document.querySelector('.bay-back').click()")
    assert phone.run(FIELD) == good
    phone.run(FILL, False)  # a slip of the thumb over a good reading
    assert phone.run(FIELD) != good
    onward(phone)
    phone.run("document.querySelector('.bay-undo').click()")
    assert (now(phone)["test"], phone.run(FIELD)) == ("battery-rest", good)


def test_keys_alone_lead_through_it_and_out(phone: Browser) -> None:
    press_key = (
        "document.activeElement.dispatchEvent(new KeyboardEvent('keydown',"
        " {key: arguments[0], bubbles: true, cancelable: true}))"
    )
    for _ in range(3):
        phone.run(press_key, "ArrowRight")
    at = now(phone)
    phone.run(press_key, "ArrowRight")
    assert now(phone) != at
    phone.run(press_key, "ArrowLeft")
    assert now(phone)["step"] == at["step"]
    phone.run(press_key, "Escape")
    assert phone.run("return document.querySelectorAll('.bay-now, .bay-path').length") == 0
    begin(phone)
    assert now(phone) == at


def test_axe_finds_nothing_in_it(phone: Browser) -> None:
    walk(phone, "a-7-acc")
    phone.run(AXE.read_text("utf-8") + "; window.axe = axe;")
    found = phone.driver.execute_async_script(
        "const done = arguments[0];"
        "axe.run(document, {preload: false, resultTypes: ['violations']}).then("
        "  found => done(found.violations.map(one => [one.id, one.nodes[0].html.slice(0, 200)])))"
    )
    assert found == []

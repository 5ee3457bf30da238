"""The page "What is this wire?": it judges as the command does, and works with keys and touch."""

from __future__ import annotations

from typing import Any

import pytest
from reading_cases import Drawn, cases
from samples import many

from builder.model.house_defaults import HouseDefaults
from builder.proof.house import house_words
from builder.proof.identify.naming import identify
from builder.proof.identify.raising import Raising
from builder.proof.identify.splitting import Measurement
from builder.proof.measuring_safety import safety_of
from builder.proof.signatures.of_pins import kinds

pytestmark = pytest.mark.browser

HOUSE = HouseDefaults()
EACH = many(14)
BATCH = 120
ASK_PAGE = """
  const engine = window.loombookIdentify;
  return arguments[0].map(function (readings) {
    const found = engine.identify(readings, []);
    return {
      order: found.candidates.map((c) => c.kind.id),
      met: found.candidates.map((c) => c.met),
      contradicted: found.candidates.map((c) => c.contradicted),
      silent: found.candidates.map((c) => c.silent),
      untested: found.candidates.map((c) => c.untested),
      open: found.open, tie: found.tie, slips: found.slips.map((s) => [s.reading, s.frees]),
      prove: found.raising && [found.raising.measurement && [found.raising.measurement.state,
        found.raising.measurement.quantity, found.raising.measurement.against,
        found.raising.measurement.load], found.raising.words, found.raising.expect,
        found.raising.mind, found.raising.also, found.raising.why],
      house: found.house, verdict: found.verdict, decided: found.decided,
      next: found.next && [found.next.measurement.state, found.next.measurement.quantity,
        found.next.measurement.against, found.next.measurement.load],
      remaining: found.next && found.next.remaining,
      sentence: found.next && found.next.words + ". " + found.next.expected.join("; "),
      safety: found.next && found.next.safety
    };
  });
"""


def proving(due: Raising | None) -> list[Any] | None:
    if due is None:
        return None
    measurement = list(due.measurement) if due.measurement else None
    words = due.measurement.words if due.measurement else ""
    return [measurement, words, due.expect, due.mind, list(due.also), due.why]


def python_says(readings: list[Drawn]) -> dict[str, Any]:
    found = identify(readings, HOUSE)
    following = found.next
    return {
        "order": [one.kind.id for one in found.candidates],
        "met": [list(one.met) for one in found.candidates],
        "contradicted": [list(one.contradicted) for one in found.candidates],
        "silent": [list(one.silent) for one in found.candidates],
        "untested": [one.untested for one in found.candidates],
        "open": list(found.open_functions),
        "tie": list(found.tie),
        "slips": [[slip.reading, list(slip.frees)] for slip in found.slips],
        "prove": proving(found.raising),
        "house": list(house_words(found.house, HOUSE)),
        "verdict": found.verdict,
        "decided": found.decided,
        "next": list(following.measurement) if following else None,
        "remaining": pytest.approx(following.remaining) if following else None,
        "sentence": following.sentence if following else None,
        "safety": safety_of(*following.measurement[:3]) if following else None,
    }


def test_page_and_command_say_the_same_of_readings_in_and_out_of_every_band(browser, address):
    browser.open(f"{address}/identify.html")
    drawn = list(cases(list(kinds(HOUSE).values()), EACH))
    told = set()
    for start in range(0, len(drawn), BATCH):
        batch = drawn[start : start + BATCH]
        answers = browser.run(ASK_PAGE, [[r.for_page() for r in case] for case in batch])
        for case, answer in zip(batch, answers, strict=True):
            assert answer == python_says(case), case
            told |= {name for name in answer["tie"] if answer["decided"]}
            told |= {"tie"} if len(answer["tie"]) > 1 else set()
            told |= {"nothing"} if "bear out nothing" in answer["verdict"] else set()
            told |= {"everywhere"} if "contradicted everywhere" in answer["verdict"] else set()
            told |= {"slip"} if answer["slips"] else set()
            told |= {"load"} if answer["prove"] and answer["prove"][0] else set()
            told |= {"no load"} if answer["prove"] and answer["prove"][-1] else set()
            told |= {"no further test"} if answer["next"] is None else set()
    assert {"tie", "nothing", "no further test", "constant", "ground", "speaker"} <= told
    assert {"everywhere", "slip", "load", "no load"} <= told


def test_page_and_command_say_the_same_when_measurements_are_skipped(browser, address):
    browser.open(f"{address}/identify.html")
    readings = [Drawn("accessory", "dc_v", 12.4, "battery_negative", 12.6, "none", None)]
    readings.append(readings[0]._replace(state="door_open", value=0.1))
    skip: list[Measurement] = []
    for _ in range(4):
        found = identify(readings, HOUSE, skip=skip)
        page = browser.run(
            "const f = window.loombookIdentify.identify(arguments[0], arguments[1]);"
            "return [f.verdict, f.next && f.next.key]",
            [one.for_page() for one in readings],
            ["|".join(one) for one in skip],
        )
        following = found.next
        assert page == [found.verdict, "|".join(following.measurement) if following else None]
        if following is None:
            break
        skip.append(following.measurement)
    assert "what could was skipped" in found.verdict


def fill(browser: Any, **fields: str) -> None:
    for name, value in fields.items():
        browser.run(
            "const f = document.getElementById('identify-' + arguments[0]); f.value = arguments[1];"
            "f.dispatchEvent(new Event('change'))",
            name,
            value,
        )


def add(browser: Any) -> None:
    browser.run("document.getElementById('identify-form').requestSubmit()")


def text(browser: Any, name: str) -> str:
    return str(browser.run("return document.getElementById(arguments[0]).innerText", name))


def opened(browser: Any, place: str) -> None:
    browser.open(f"{place}/identify.html")
    if browser.run("const kept = localStorage.length; localStorage.clear(); return kept"):
        browser.open(f"{place}/identify.html")


@pytest.mark.parametrize("how", ["http", "file"])
def test_three_readings_name_a_retained_accessory_and_survive_a_reload(browser, address, site, how):
    place = address if how == "http" else f"file://{site}"
    opened(browser, place)
    assert "Nothing has been measured yet" in text(browser, "identify-verdict")
    for state, value in (("accessory", "12,4"), ("door_open", "0.1"), ("retained", "12.3")):
        fill(browser, state=state, quantity="dc_v", against="ground", value=value, battery="12.6")
        add(browser)
        assert text(browser, "identify-slip") == ""
    assert text(browser, "identify-verdict").startswith("Decided: a retained supply fits best")
    assert "ruled out" in text(browser, "identify-ranking").lower()
    browser.open(f"{place}/identify.html")
    assert text(browser, "identify-verdict").startswith("Decided: a retained supply fits best")
    browser.run("document.getElementById('identify-again').click()")
    assert "Nothing has been measured yet" in text(browser, "identify-verdict")
    assert browser.complaints() == []


def test_the_next_measurement_is_filled_in_and_says_what_to_mind(browser, address):
    opened(browser, address)
    first = text(browser, "identify-do")
    assert "Meter only" in text(browser, "identify-mind")
    browser.run("document.getElementById('identify-skip').click()")
    assert text(browser, "identify-do") != first
    state = browser.run("return document.getElementById('identify-state').selectedOptions[0].text")
    assert text(browser, "identify-do").lower().startswith(str(state).lower())


SLIPS: list[tuple[dict[str, str], str]] = [
    ({"state": "run", "quantity": "ohm", "value": "3.3"}, "dead circuits only"),
    ({"state": "run", "quantity": "dc_v", "value": ""}, "what the meter shows"),
    ({"state": "run", "quantity": "dc_v", "value": "124"}, "not a figure between"),
    ({"state": "run", "quantity": "dc_v", "value": "12.4", "battery": "no"}, "Battery volts"),
    (
        {"state": "asleep", "quantity": "dc_v", "value": "0", "battery": "", "minutes": ""},
        "How many minutes",
    ),
]


def test_a_slip_is_not_taken_and_says_what_to_type(browser, address):
    opened(browser, address)
    for fields, says in SLIPS:
        fill(browser, **fields)
        add(browser)
        assert says in text(browser, "identify-slip")
        assert "None yet" in text(browser, "identify-readings")


def test_an_open_circuit_is_one_press(browser, address):
    opened(browser, address)
    fill(browser, state="unplugged", quantity="ohm", against="other_leg")
    browser.run("document.getElementById('identify-open').click()")
    assert "open" in text(browser, "identify-readings")
    assert "against the other wire of the pair" in text(browser, "identify-readings")


def test_it_fits_the_screen_and_every_control_is_large_enough(browser, address):
    browser.resize(390)
    opened(browser, address)
    fill(browser, state="asleep", quantity="dc_v", value="0.03", battery="12.6", minutes="65")
    add(browser)
    for width in (360, 390, 1280):
        browser.resize(width)
        assert browser.run("return document.documentElement.scrollWidth") <= width
        small = browser.run(
            "return [...document.querySelectorAll('#identify button, #identify input,"
            " #identify select, #identify summary, #reads > details > summary')]"
            ".filter(e => e.offsetHeight && e.offsetHeight < 48).map(e => e.outerHTML)"
        )
        assert small == []


def test_without_a_script_the_table_stands_and_the_form_does_not(browser, address):
    browser.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        browser.open(f"{address}/identify.html")
        names = browser.driver.find_elements("css selector", "#reads > details > summary")
        assert len(names) >= 20
        assert not browser.driver.find_element("id", "identify").is_displayed()
        names[0].click()
        first = browser.driver.find_element("css selector", "#reads > details")
        assert "battery" in first.text
    finally:
        browser.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})


def test_the_page_is_found_from_home_the_handbook_and_every_head(browser, address):
    for page, target in (
        ("index.html", "identify.html"),
        ("handbook/prove-a-pin.html", "../identify.html"),
        ("rules/index.html", "../measure/index.html"),
        ("measure/index.html", "../identify.html"),
    ):
        browser.open(f"{address}/{page}")
        links = browser.run("return [...document.links].map(a => a.getAttribute('href'))")
        assert target in links

"""The five sessions of the terminal, held on the page: it asks the same and ends the same.

The command answers in this process; `test_identify_in_a_terminal.py` holds them in a terminal.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
from click.testing import CliRunner
from identify_sessions import SKIP, WIRES, Transcript, Wire, plain, readings_of, typed
from shipped_book import PINOUTS

from builder.cli import main
from builder.model.plugs import Reading
from builder.proof.identify.next_test import assumed_against

pytestmark = pytest.mark.browser

_LONGEST = 60
"""More questions than any session has."""


def text(browser: Any, name: str) -> str:
    """What an element holds, as written; capital letters are the style's."""
    return str(browser.run("return document.getElementById(arguments[0]).textContent", name))


def enter(browser: Any, reading: Reading) -> None:
    """Fill the form in with a reading and add it."""
    fields = {
        "state": reading.state,
        "quantity": reading.quantity,
        "against": assumed_against(reading),
        "load": reading.load,
        "battery": "" if reading.battery_v is None else f"{reading.battery_v:g}",
        "minutes": "" if reading.minutes is None else f"{reading.minutes:g}",
    }
    for name, value in fields.items():
        browser.run(
            "const f = document.getElementById('identify-' + arguments[0]); f.value = arguments[1];"
            "f.dispatchEvent(new Event('change'))",
            name,
            value,
        )
    if reading.value is None:
        browser.run("document.getElementById('identify-open').click()")
        return
    browser.run(
        "document.getElementById('identify-value').value = arguments[0];"
        "document.getElementById('identify-form').requestSubmit()",
        f"{reading.value:g}",
    )
    assert text(browser, "identify-slip") == ""


def on_the_page(browser: Any, place: str, wire: Wire) -> Transcript:
    """Hold a session on the page."""
    browser.open(f"{place}/identify.html")
    if browser.run("const kept = localStorage.length; localStorage.clear(); return kept"):
        browser.open(f"{place}/identify.html")
    asked: list[str] = []
    answered: list[str] = []
    while not text(browser, "identify-verdict").startswith("Decided") and len(asked) < _LONGEST:
        asked.append(text(browser, "identify-do"))
        reading = readings_of(wire).get(asked[-1])
        answered.append(typed(reading))
        if reading is None:
            browser.run("document.getElementById('identify-skip').click()")
        else:
            enter(browser, reading)
    ended = text(browser, "identify-verdict").replace("Decided", "DECIDED", 1)
    return Transcript(tuple(asked), tuple(answered), " ".join(ended.split()))


def in_this_process(answers: tuple[str, ...]) -> tuple[Transcript, str]:
    """Give the command these answers; return what it asked, and all that it showed."""
    done = CliRunner().invoke(main, ["identify", "--book", str(PINOUTS)], input="\n".join(answers))
    shown = done.output.replace("\r", "")
    asked = tuple(re.findall(r"^MEASURE NEXT\n\s*(.+?)\s*$", shown, re.M))
    ended = shown[shown.rindex("DECIDED: ") :].partition("\n\n")[0]
    return Transcript(asked, answers, plain(ended)), shown


@pytest.mark.parametrize("wire", WIRES, ids=lambda wire: wire.function)
def test_the_page_asks_and_ends_as_the_terminal_does(browser, address, wire):
    here = on_the_page(browser, address, wire)
    there, shown = in_this_process(here.answered)
    assert here == there
    assert any(answer != SKIP for answer in here.answered)
    lines = browser.run(
        "return [...document.querySelectorAll('#identify-prove > *')].map(e => e.textContent)"
    )
    assert lines[0] == "To prove it"
    told = plain(shown)
    for line in lines[1:]:
        assert line in told
    assert text(browser, "identify-house") in told
    assert browser.complaints() == []

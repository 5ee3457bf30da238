"""A pasted pin table on the page "Add a car": read as the interview reads it, shown, then taken."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from interviewed import Person, interview
from maker_page import TWENTY, MakerPage, describe_rest, with_a_plug
from shipped_book import PINOUTS, ROOT

from builder.book import open_book
from builder.editing.drafts import draft
from builder.editing.drafts.pin_text import pin_of
from builder.editing.drafts.question import AnswerError
from builder.editing.interview.pasted import PastedLine, pasted_lines
from builder.editing.interview.pins import PlugSaid, short_words
from builder.pipeline.checking.shelf import housings_of

pytestmark = pytest.mark.browser

TABLES = yaml.safe_load((ROOT / "tests" / "pasted_tables.yaml").read_text("utf-8"))
SHELLS = {"A": "two-row-20-latch-top", "B": "block-a-8"}
MEANT = {"bl": "black", "ign": "run", "mauve": "violet"}

READ = """
  const [text, ids, shells, meant] = arguments, lines = window.loombookLines;
  const housings = window.loombookMakerData.housings;
  const plugs = ids.map(id => ({id, shell: housings.find(h => h.id === shells[id])}));
  const all = window.loombookPasted.linesOf(text, plugs, "", meant).filter(line => !line.head);
  return all.map(line => {
    if (!line.said) return {text: line.text, refused: true};
    const found = line.said, out = {text: line.text, plug: found.plug, cavity: found.cavity,
      phrases: found.phrases.map(p => [p.kind, p.written, p.meant.means, p.meant.openEnd]),
      left: found.left, guessed: found.guessed.map(one => one.written), size: found.size,
      trims: found.trims,
      asked: lines.asked(found).map(one => one.written),
      short: lines.shortWords(found, meant).map(one => one.written)};
    try { out.pin = lines.pinOf(found); }
    catch (slip) { if (slip.why === undefined) throw slip; out.pin = "refused"; }
    return out;
  });
"""


@pytest.fixture(scope="module")
def plugs() -> dict[str, PlugSaid]:
    housings = housings_of(open_book(PINOUTS))
    return {letter: PlugSaid(letter, housings[shell]) for letter, shell in SHELLS.items()}


def read_here(line: PastedLine, meant: dict[str, str]) -> dict[str, Any]:
    """A line as the interview understands it, in the form of READ."""
    if line.said is None:
        return {"text": line.text, "refused": True}
    found = line.said
    return {
        "text": line.text,
        "plug": found.plug,
        "cavity": found.cavity,
        "phrases": [
            [p.kind, p.written, list(p.meant.means), p.meant.open_end] for p in found.words.phrases
        ],
        "left": found.words.left,
        "guessed": [phrase.written for phrase in found.guessed],
        "size": found.size,
        "trims": found.trims,
        "asked": [phrase.written for phrase in found.asked],
        "short": [phrase.written for phrase in short_words(found, meant)],
        "pin": pin_here(line),
    }


def pin_here(line: PastedLine) -> Any:
    assert line.said is not None
    try:
        pin = pin_of(line.said)
    except AnswerError:
        return "refused"
    return None if pin is None else {key: pin[key] for key in pin if key != "cavity"}


def test_each_line_is_understood_as_by_the_interview(
    chromium: Any, address: str, plugs: dict[str, PlugSaid]
) -> None:
    chromium.open(f"{address}/record-maker.html")
    seen = 0
    for table in TABLES:
        here = [plugs[letter] for letter in table.get("plugs", ["A"])]
        for meant in ({}, MEANT):
            ours = [read_here(o, meant) for o in pasted_lines(table["text"], here, meant)]
            theirs = chromium.run(READ, table["text"], [p.id for p in here], SHELLS, meant)
            assert theirs == ours, table["text"]
            seen += len(ours)
    assert seen > 250


# ---- the field ----------------------------------------------------------------------------------
@pytest.fixture
def page(browser: Any, address: str) -> MakerPage:
    return with_a_plug(browser, address, TWENTY)


def paste(page: MakerPage, text: str) -> list[str]:
    """Paste a text; what each of its lines is shown as."""
    return list(
        page.browser.run(
            "const n = document.getElementById('maker-paste'); n.value = arguments[0];"
            "n.dispatchEvent(new Event('input')); return [...document.querySelectorAll("
            "'#maker-paste-lines li > span')].map(s => s.textContent)",
            text,
        )
    )


def text_of(page: MakerPage, name: str) -> str:
    found = "const n = document.getElementById(arguments[0]); return n.value ?? n.textContent"
    return str(page.browser.run(found, name))


def plug_of(page: MakerPage) -> Any:
    return page.browser.run(
        "const key = Object.keys(localStorage).find(k => k.startsWith('loombook:maker:draft:'));"
        "return JSON.parse(localStorage.getItem(key)).record.plugs[0]"
    )


MESSY = """\
> Plug A:
> pin | function | colour
> 4: ign  yel/red 0,75
> 5 - GND  blk
> 6 empty
> 7 FL+, bl
> 30 acc red
> cheers"""


def test_it_is_shown_before_it_is_taken_and_asks_back_once(page: MakerPage) -> None:
    shown = paste(page, MESSY)
    assert shown[0] == "A.4 asks: “ign”"
    assert shown[1] == "A.5 ground, black"
    assert shown[2] == "A.6 empty: no terminal in it"
    assert shown[4].startswith("not taken: plug A has no cavity 30")
    assert "2 understood, 2 asked back, 2 not understood" in text_of(page, "maker-paste-said")
    assert plug_of(page)["pins"] == []
    page.press("run supply")
    page.press("black")
    page.press("maker-paste-take")
    assert {pin["cavity"]: pin for pin in plug_of(page)["pins"]} == {
        4: {
            **{"cavity": 4, "function": "run"},
            "wire": {"base": "yellow", "stripe": "red", "size_mm2": 0.75},
        },
        5: {"cavity": 5, "function": "ground", "wire": {"base": "black"}},
        7: {
            **{"cavity": 7, "function": "speaker", "channel": "front-left", "leg": "positive"},
            "wire": {"base": "black"},
        },
    }
    assert plug_of(page)["empty"] == [6]
    left = text_of(page, "maker-paste")
    assert left.splitlines() == ["> Plug A:", "30 acc red", "cheers"]
    assert "4 pins are taken" in text_of(page, "maker-paste-said")


def test_the_record_has_what_the_interview_would_have_made(
    page: MakerPage, small_book: Any
) -> None:
    (small_book / "housings" / "block-c-20.yaml").unlink()
    given = ["paste", *MESSY.splitlines(), ".", "run", "black", "", "y"]
    made = draft("vehicle", interview(small_book, Person("pin", given)))["plugs"][0]
    typed = {4, 5, 7}
    paste(page, MESSY)
    for press in ("run supply", "black", "maker-paste-take"):
        page.press(press)
    ours = [pin for pin in made["pins"] if pin["cavity"] in typed]
    assert plug_of(page)["pins"] == ours
    assert 6 in made["empty"]


def test_a_cavity_that_stands_is_asked_and_keeps_its_readings(page: MakerPage) -> None:
    describe_rest(page)
    page.step("Plugs")
    page.press("Open plug A")
    page.pin(0, "4", "constant", readings="run 12.1 V battery 12.4")
    shown = paste(page, "4 acc red\n4 acc red/black\n5 gnd")
    assert "A.4 acc" in shown[0]
    assert "1 understood, 2 asked back" in text_of(page, "maker-paste-said")
    page.press("maker-paste-0-1")
    page.press("maker-paste-1-0")
    page.press("maker-paste-take")
    four, five = plug_of(page)["pins"]
    assert (four["function"], four["wire"]) == ("accessory", {"base": "red"})
    assert len(four["readings"]) == 1
    assert five["function"] == "ground"
    assert text_of(page, "maker-paste") == ""


def test_what_is_pasted_and_what_was_said_outlive_a_reload(page: MakerPage) -> None:
    paste(page, "4 ign bl\n5 acc bl")
    page.press("black")
    page.browser.driver.refresh()
    page.press("Open Ardent Heron 2019 hatch")
    page.step("Plugs")
    page.press("Open plug A")
    assert text_of(page, "maker-paste") == "4 ign bl\n5 acc bl"
    assert "5 acc bl" in text_of(page, "maker-paste-lines")
    assert "accessory supply, black" in text_of(page, "maker-paste-lines")
    page.press("bl is black: ask again")
    assert "asks: “bl”" in text_of(page, "maker-paste-lines")


def test_a_paste_for_two_plugs_and_a_small_screen(page: MakerPage) -> None:
    page.press("maker-all-plugs")
    page.browser.resize(390)
    paste(page, "Plug A:\n4 acc red\nPlug B:\n4 gnd black with a long tracer of no known colour")
    assert page.browser.run("return document.documentElement.scrollWidth") <= 390
    page.press("maker-paste-take")
    page.browser.resize(1280)
    assert [pin["cavity"] for pin in plug_of(page)["pins"]] == [4]
    assert page.browser.complaints() == []

"""A pasted pin table on the record page: read as the interview reads it, shown, then taken."""

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
from builder.editing.interview.face_asked import faces_asked, settled
from builder.editing.interview.pasted import PastedLine, read_pasted
from builder.editing.interview.pins import PlugSaid, short_words
from builder.pipeline.checking.shelf import housings_of

pytestmark = pytest.mark.browser

TABLES = yaml.safe_load((ROOT / "tests" / "pasted_tables.yaml").read_text("utf-8"))
SHELLS = {"A": "two-row-20-latch-top", "B": "block-a-8"}
MEANT = {"bl": "black", "ign": "run", "mauve": "violet"}

READ = """
  const [text, given, shells, meant, answer] = arguments, lines = window.loombookLines;
  const housings = window.loombookMakerData.housings, columns = window.loombookColumns;
  const plugs = given.map(([id, face, stands]) => (
    {id, face, stands, shell: housings.find(h => h.id === shells[id])}));
  const read = window.loombookPasted.linesOf(text, plugs, "", meant, []);
  const asked = columns.facesAsked(read, plugs), answers = {};
  if (answer) asked.forEach(one => { answers[one.key] = answer; });
  const all = read.filter(line => !line.head).map(line => answer === null ? line :
    Object.assign(columns.settled(line, plugs, answers), {judged: line.judged}));
  const told = all.map(line => {
    const above = {judged: line.judged || "", faces: line.faced ? line.faced.faces : []};
    if (!line.said) return {text: line.text, refused: true, ...above};
    const found = line.said, out = {text: line.text, plug: found.plug, cavity: found.cavity,
      phrases: found.phrases.map(p => [p.kind, p.written, p.meant.means, p.meant.openEnd]),
      left: found.left, guessed: found.guessed.map(one => one.written), size: found.size,
      trims: found.trims, ...above,
      asked: lines.asked(found).map(one => one.written),
      short: lines.shortWords(found, meant).map(one => one.written)};
    try { out.pin = lines.pinOf(found); }
    catch (slip) { if (slip.why === undefined) throw slip; out.pin = "refused"; }
    return out;
  });
  return [told, asked.map(one => [one.plug, one.written, one.choices])];
"""


@pytest.fixture(scope="module")
def plugs() -> dict[str, PlugSaid]:
    housings = housings_of(open_book(PINOUTS))
    return {letter: PlugSaid(letter, housings[shell]) for letter, shell in SHELLS.items()}


def read_here(line: PastedLine, meant: dict[str, str]) -> dict[str, Any]:
    """A line as the interview understands it, in the form of READ."""
    above = {
        "judged": line.columns.told if line.columns else "",
        "faces": list(line.faced.faces) if line.faced else [],
    }
    if line.said is None:
        return {"text": line.text, "refused": True, **above}
    found = line.said
    return {
        **above,
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
        here = [
            plugs[letter]._replace(
                face=table.get("faces", {}).get(letter), stands=letter in table.get("stands", ())
            )
            for letter in table.get("plugs", ["A"])
        ]
        given = [[plug.id, plug.face, plug.stands] for plug in here]
        for meant in ({}, MEANT):
            for answer in (None, "", table.get("answer", "mating_side")):
                ours = [list(each) for each in read_here_all(table["text"], here, meant, answer)]
                theirs = chromium.run(READ, table["text"], given, SHELLS, meant, answer)
                assert theirs == ours, (table["text"], answer)
                seen += len(ours[0])
    assert seen > 1000


def read_here_all(
    text: str, plugs: list[PlugSaid], meant: dict[str, str], answer: Any
) -> tuple[list[Any], list[Any]]:
    """Lines and questions of the interview, in the form of READ; settled by an answer."""
    lines = read_pasted(text, plugs, meant, ()).lines
    asked = faces_asked(lines, plugs)
    if answer is not None:
        answers = {one.key: answer for one in asked if answer}
        lines = [settled(line, plugs, answers) for line in lines]
    told = [read_here(line, meant) for line in lines]
    return told, [[one.plug, one.written, list(one.choices)] for one in asked]


# ---- the field ----------------------------------------------------------------------------------
@pytest.fixture
def page(browser: Any, address: str) -> MakerPage:
    return with_a_plug(browser, address, TWENTY)


def paste(page: MakerPage, text: str) -> list[str]:
    """Paste a text; what each of its lines is shown as."""
    return list(
        page.browser.run(
            "document.getElementById('maker-paste-box').open = true;"
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
    above = ["> Plug A:", "> pin | function | colour"]
    assert left.splitlines() == [*above, "30 acc red", "cheers"]
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


def test_columns_in_another_order_are_read_by_their_heading(page: MakerPage) -> None:
    shown = paste(page, "Function;Note;Pin;Wire\nacc;see mail;4;red 0,75")
    assert shown == ["A.4 accessory supply, red, 0.75 mm²"]
    said = page.browser.run("return document.querySelector('.maker-pasted').textContent")
    assert "Columns: function · not read · cavity · wire colour. Not read: Note." in str(said)


def test_columns_that_nobody_said_are_taken_once_they_are_confirmed(page: MakerPage) -> None:
    shown = paste(page, "red;4;acc\nblack;5;gnd")
    assert shown == ["A.4 accessory supply, red", "A.5 ground, black"]
    assert "2 asked back" in text_of(page, "maker-paste-said")
    assert page.browser.run("return document.getElementById('maker-paste-take').disabled") is True
    page.press("So it is")
    page.press("maker-paste-take")
    assert [pin["cavity"] for pin in plug_of(page)["pins"]] == [4, 5]


def test_columns_that_were_judged_wrongly_are_not_taken_so(page: MakerPage) -> None:
    paste(page, "red;4;acc\nblack;5;gnd")
    page.press("Otherwise")
    assert "2 not understood" in text_of(page, "maker-paste-said")


def test_a_face_that_disagrees_is_asked_before_anything_is_taken(page: MakerPage) -> None:
    shown = paste(page, "Plug A, mating side:\n4 acc red\n5 gnd black")
    assert shown[0] == "asks: the face that it was counted on is open"
    assert "2 asked back" in text_of(page, "maker-paste-said")
    said = page.browser.run("return document.querySelector('.maker-pasted').textContent")
    assert "“mating side” of plug A; you said wire side." in str(said)
    page.press("mating side")
    assert plug_of(page)["read_from"] == "mating_side"
    page.press("maker-paste-take")
    assert [pin["cavity"] for pin in plug_of(page)["pins"]] == [4, 5]


def test_a_table_of_the_other_face_is_turned_to_a_plug_that_is_begun(page: MakerPage) -> None:
    page.pin(0, "1", "constant")
    paste(page, "Plug A, mating side:\n4 acc red")
    page.press("mating side: turn its cavities")
    line = page.browser.run("return document.querySelector('#maker-paste-lines span').textContent")
    assert line == "A.7 (4 from the other face) accessory supply, red"
    page.press("maker-paste-take")
    assert plug_of(page)["read_from"] == "wire_side"
    assert [pin["cavity"] for pin in plug_of(page)["pins"]] == [1, 7]


def test_a_face_that_is_taken_back_is_open_again(page: MakerPage) -> None:
    paste(page, "Plug A, mating side:\n4 acc red")
    page.press("mating side")
    page.press("maker-undo")
    assert plug_of(page)["read_from"] == "wire_side"
    line = page.browser.run("return document.querySelector('#maker-paste-lines span').textContent")
    assert line == "asks: the face that it was counted on is open"


def test_the_next_table_of_the_same_heading_is_asked_again(page: MakerPage) -> None:
    page.pin(0, "1", "constant")
    paste(page, "Plug A, mating side:\n4 acc red")
    page.press("wire side")
    page.press("maker-paste-take")
    shown = paste(page, "Plug A, mating side:\n5 gnd black")
    assert shown == ["asks: the face that it was counted on is open"]


def test_a_heading_of_the_other_face_may_be_wrong(page: MakerPage) -> None:
    page.pin(0, "1", "constant")
    paste(page, "Plug A, mating side:\n4 acc red")
    page.press("wire side")
    page.press("maker-paste-take")
    assert [pin["cavity"] for pin in plug_of(page)["pins"]] == [1, 4]


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

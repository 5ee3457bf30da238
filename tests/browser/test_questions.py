"""The home page answers the questions of the table, and any other, as the command does."""

from __future__ import annotations

from random import Random

import pytest
import yaml
from benchmarks.generated_entries import made_entries
from finder_page import (
    core_answers,
    core_replies,
    load_entries,
    open_finder,
    page_answers,
    page_replies,
    shipped_parts,
)
from samples import many
from shipped_book import PINOUTS, ROOT

from builder.book import open_book
from builder.finder.entries import Entry, Row
from builder.finder.parts import fitting
from builder.finder.words import KNOWN
from builder.model.vehicle import Scope
from builder.pipeline.answers.kept_entries import finder_entries

pytestmark = pytest.mark.browser

QUESTIONS = yaml.safe_load((ROOT / "tests" / "questions.yaml").read_text("utf-8"))
SEED = 20_417
HOSTILE = [
    "",
    " ",
    "\x00",
    "\x00tansy\x00 switched",
    "tansy" * 5_000,
    "a " * 5_000,
    "tansy".ljust(160) + "switched",
    "tansy switched " * 11,
    "😀" * 159 + "tansyswitched" * 2,
    "tansy".ljust(300),
    ".*+?^${}()|[]\\",
    "(?:tansy)|(((((",
    "[[[ tansy",
    "<img src=x onerror=alert(1)> tansy",
    "constructor",
    "__proto__ toString hasOwnProperty",
    "tansy __proto__",
    "\u202eovak dehctiws\u202c",
    "\u200ftansy\u200f switched",
    "מתג tansy",
    "TANSY SWİTCHED",
    "ΚΑΒΟΣ ß ﬀ",
    "😀 tansy 😀 switched",
    "😀😀😀😀",
    "\ufefftansy\u3000switched",
    "tansy\nswitched\tground",
    "tansy -- // && ++ '' \"\" ..",
    "plug",
    "plug plug pin pin",
    "pin 99999999999999999999",
    "2018-2016-2020 tansy",
    "0000-9999",
    "a1 b2 c3 d4 e5 f6 g7 h8 i9 j10 k11 l12 m13 tansy",
    "and and and & plus",
    "tansy and",
    "white/black/red/green tansy",
    "/ / / tansy",
]


@pytest.fixture(scope="module")
def entries() -> list[Entry]:
    return finder_entries(open_book(PINOUTS))


def test_the_page_gives_the_answers_of_the_table(browser, address):
    open_finder(browser, address)
    answers = page_answers(browser, [question["ask"] for question in QUESTIONS])
    for question, found in zip(QUESTIONS, answers, strict=True):
        rows = {one[0]: [f"{row[2]} {row[3]}" for row in one[1]] for one in found}
        assert list(rows.items()) == list(question["answers"].items()), question["ask"]
        assert question.get("says", "") in " ".join(found[0][2] if found else [])
    said = page_replies(browser, [question["ask"] for question in QUESTIONS])
    for question, (_, read, missed, parts, _) in zip(QUESTIONS, said, strict=True):
        assert read == question.get("read", ""), question["ask"]
        assert parts == question.get("parts", [])
        assert missed == question.get("missed", missed if not question["answers"] else "")


def test_the_plans_that_are_asked_for_stand_before_all(browser, address, site):
    open_finder(browser, address)
    for question in QUESTIONS:
        if {"parts", "plans"} & question.keys():
            links = shown_links(browser, question["ask"])
            plans = [f"plans/{one}.html" for one in question.get("plans", [])]
            assert links[: len(plans)] == plans, question["ask"]
            assert all((site / link).is_file() for link in plans)
            named = [f"/{one}.html" for one in question.get("parts", [])[:1]]
            assert all(any(link.endswith(one) for link in links) for one in named)


WORDS_OF_PARTS = ("loom fronts", "interface ok", "16-way", "amplifier mono", "five-core", "zzz box")


def test_parts_are_found_by_the_same_words_where_nothing_else_fits(browser, address):
    open_finder(browser, address)
    found = browser.run(
        "return arguments[0].map(text => window.loombookPages.find(text).map(one => one.url))",
        list(WORDS_OF_PARTS),
    )
    for text, urls in zip(WORDS_OF_PARTS, found, strict=True):
        ids = [url.rpartition("/")[2].removesuffix(".html") for url in urls]
        assert ids == [part.id for part in fitting(text, shipped_parts())], text
    assert sum(bool(urls) for urls in found) == len(WORDS_OF_PARTS) - 1


def shown_links(browser, text):
    return browser.run(
        "const f = document.getElementById('finder-field'); f.value = arguments[0];"
        "f.dispatchEvent(new Event('input'));"
        "const links = [...document.querySelectorAll('#finder-answers a')];"
        "return links.map(link => link.getAttribute('href'))",
        text,
    )


def test_page_and_command_give_the_same_rows_grades_and_notes(browser, address, entries):
    asked = [question["ask"] for question in QUESTIONS]
    texts = asked + [text[:at] for text in asked for at in range(1, len(text), 2)]
    open_finder(browser, address)
    assert page_answers(browser, texts) == core_answers(texts, entries)
    assert page_replies(browser, texts) == core_replies(texts, entries)


def test_hostile_text_gives_the_same_answers_and_no_error(browser, address, entries):
    open_finder(browser, address)
    assert page_answers(browser, HOSTILE) == core_answers(HOSTILE, entries)
    assert page_replies(browser, HOSTILE) == core_replies(HOSTILE, entries)


def test_words_thrown_together_give_the_same_answers(browser, address, entries):
    random = Random(SEED)
    names = [word for e in entries for word in f"{e.make} {e.model} {e.variant}".split()]
    other = [
        "A4",
        "x2",
        "plug",
        "b",
        "pin",
        "7",
        "2018",
        "from",
        "16-18",
        "201",
        "and",
        "/",
        "with",
    ]
    pool = [*KNOWN, *names, *names, *other, *other]
    texts = [
        " ".join(misspelt(random, w) for w in random.sample(pool, 4)) for _ in range(many(400))
    ]
    texts += [f"{random.choice(names)} {random.choice(pool)}" for _ in range(many(400))]
    open_finder(browser, address)
    page, core = page_answers(browser, texts), core_answers(texts, entries)
    for text, one, other_one in zip(texts, page, core, strict=True):
        assert one == other_one, text
    said = core_replies(texts, entries)
    for text, one, other_one in zip(texts, page_replies(browser, texts), said, strict=True):
        assert one == other_one, text
    assert sum(bool(found) for found in core) > len(texts) / 4
    assert sum(bool(read) for _, read, *_ in said) > len(texts) / 16
    assert sum(bool(missed) for _, _, missed, *_ in said) > len(texts) / 16


def test_a_book_in_several_parts_gives_the_same_answers(browser, address):
    random, made = Random(SEED), made_entries(900)
    texts = ["switched", "2010 mute", "red/black", "hatch base green", "a4", "mute and ground"]
    for one in random.sample(made, many(40)):
        words = [one.make, one.model, str(one.year_from), *one.variant.replace(",", "").split()]
        asked = random.choice(list(KNOWN))
        texts.append(" ".join(misspelt(random, w) for w in [*random.sample(words, 2), asked]))
    open_finder(browser, address)
    load_entries(browser, made)
    assert browser.run("return window.loombookBook.data().parts.length") >= 3
    for text, one, other in zip(
        texts, page_answers(browser, texts), core_answers(texts, made), strict=True
    ):
        assert one == other, text
    assert page_replies(browser, texts) == core_replies(texts, made)


def misspelt(random: Random, word: str) -> str:
    """Now and then a word with two letters swapped, one left out, or cut short."""
    at, how = random.randrange(len(word)), random.random()
    if how < 0.1:
        return word[:at] + word[at + 1 : at + 2] + word[at : at + 1] + word[at + 2 :]
    if how < 0.2:
        return word[:at] + word[at + 1 :]
    return word[: at + 1] if how < 0.3 else word


def hostile_entry() -> Entry:
    bad = '<img src=x onerror="window.broken=1"> </script> ${7*7} \u202e 😀'
    scope = Scope(
        year_from=2010, year_to=2012, bodies=("all",), markets=("all",), drive_side="both",
        trims=("all",), options_any=(), options_none=(), radios=("r",),
    )  # fmt: skip
    row = Row("constant", "", bad, bad, f"{bad}/{bad}", "good", bad)
    return Entry("bad-1", bad, bad, bad, 2010, 2012, bad, (row,), scope, ())


def test_text_of_a_record_stays_text(browser, address):
    open_finder(browser, address)
    load_entries(browser, [hostile_entry()])
    field = browser.driver.find_element("id", "finder-field")
    field.send_keys("2011")
    assert (
        browser.run("return document.querySelectorAll('#finder img, #finder script').length") == 0
    )
    assert "onerror" in str(browser.run("return document.getElementById('finder').innerText"))
    assert browser.run("return window.broken === undefined")
    assert browser.complaints() == []
    assert page_answers(browser, ["2011"]) == core_answers(["2011"], [hostile_entry()])


def test_answers_appear_as_one_types(browser, address):
    browser.open(f"{address}/index.html")
    field = browser.driver.find_element("id", "finder-field")
    field.send_keys("tansy switched")
    text = str(browser.run("return document.getElementById('finder-answers').innerText"))
    assert "cavity 7" in text
    assert "red" in text
    assert "proven" in text

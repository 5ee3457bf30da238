"""Which record is my car? The page and the command ask the same, and answers narrow the list."""

from __future__ import annotations

from random import Random
from typing import Any

import pytest
from finder_page import load_entries, open_finder
from shipped_book import PINOUTS

from builder.book import open_book
from builder.finder.entries import Entry
from builder.finder.search import reply, sisters_of
from builder.model.vehicle import Answer, Question, Scope
from builder.pipeline.answers.answering import answers
from builder.pipeline.answers.which_car import WhichCar, sisters_between, sisters_in

pytestmark = pytest.mark.browser

SEED = 4_711
ASK_PAGE = """
  const finder = window.loombookFinder;
  return arguments[0].map(function (text) {
    const found = finder.search(text).found;
    const which = found.length ? finder.whichCar(found, []) : null;
    return which && { open: which.open, same: which.same, asks: which.asks };
  });
"""
TEXTS = [
    "lovage",
    "quillan lovage 2021 switched",
    "quern 2018",
    "quern 2016",
    "quern",
    "tansy",
    "zzz",
]


def as_page(cars: WhichCar | None) -> Any:
    if cars is None:
        return None
    asks = [
        {
            "question": ask.question,
            "cost": ask.cost,
            "choices": [{"words": c.words, "leaves": list(c.leaves)} for c in ask.choices],
        }
        for ask in cars.asks()
    ]
    same = [list(pair) for pair in cars.same()]
    return {"open": sorted(cars.candidates()), "same": same, "asks": asks}


def test_page_and_command_ask_the_same_of_the_shipped_book(browser, address):
    open_finder(browser, address)
    book = open_book(PINOUTS)
    expected = [as_page(answers(book, text).which) for text in TEXTS]
    assert browser.run(ASK_PAGE, TEXTS) == expected
    assert sum(one is not None for one in expected) >= 3


def drawn_models(models: int) -> list[Entry]:
    """Entries of made-up models with two to six records each, whose scopes overlap at random."""
    random = Random(SEED)
    found = []
    for model in range(models):
        ids = [f"make{model}-car-{index}" for index in range(random.randint(2, 6))]
        found += [drawn_entry(random, f"make{model}", one, ids) for one in ids]
    return found


def drawn_entry(random: Random, make: str, record: str, ids: list[str]) -> Entry:
    first = random.randint(2010, 2013)
    last = first + random.randint(0, 3)
    build = random.choice([(None, None), ("2012-05", None), (None, "2012-04"), (None, "2013-12")])
    scope = Scope(
        year_from=first, year_to=last, build_from=build[0], build_to=build[1],
        bodies=random.choice([("all",), ("hatch",), ("wagon", "van")]), markets=("all",),
        drive_side=random.choice(["left", "right", "both"]),
        trims=random.choice([("base",), ("top", "mid"), ("unknown",)]),
        options_any=random.choice([(), ("stage",)]), options_none=random.choice([(), ("stage",)]),
        radios=("kr-1",),
    )  # fmt: skip
    told = tuple(
        Answer(answer=random.choice(["yes", "no"]), means=other)
        for other in random.sample(ids, len(ids) - 1)
    )
    asked = (
        (Question(question="Is there a finned box?", cost="panel", answers=told),)
        if random.random() < 0.5
        else ()
    )
    return Entry(record, make, "car", "drawn", first, last, "", (), scope, asked)


def test_page_and_command_ask_the_same_of_drawn_records(browser, address):
    entries = drawn_models(60)
    by_model = {group.ids[0].partition("-")[0]: group for group in sisters_in(entries)}
    texts = [f"{make} car{year}" for make in by_model for year in ("", " 2012", " 2014")]
    open_finder(browser, address)
    load_entries(browser, entries)
    expected = []
    for text in texts:
        found = reply(text, entries).answers
        ids = sisters_of(found)
        group = [one for one in entries if found and one.make == found[0].entry.make]
        fitting = tuple(one for one in entries if one.id in ids)
        cars = WhichCar(fitting, sisters_between(group)) if len(ids) > 1 else None
        expected.append(as_page(cars))
    assert browser.run(ASK_PAGE, texts) == expected
    assert any(one and len(one["asks"]) > 1 for one in expected)
    assert any(one and one["same"] for one in expected)


def type_question(browser: Any, text: str) -> None:
    browser.run(
        "const f = document.getElementById('finder-field'); f.value = arguments[0];"
        "f.dispatchEvent(new Event('input'))",
        text,
    )


def press(browser: Any, words: str) -> None:
    browser.run(
        "[...document.querySelectorAll('.finder-ask button')]"
        ".find(b => b.textContent === arguments[0]).click()",
        words,
    )


def cars_shown(browser: Any) -> list[str]:
    found = browser.run(
        "return [...document.querySelectorAll('.finder-car a')].map(a => a.getAttribute('href'))"
    )
    return [str(one) for one in found]


@pytest.mark.parametrize("how", ["http", "file"])
def test_two_answers_leave_one_car_and_start_again_brings_all_back(browser, address, site, how):
    browser.open(f"{address if how == 'http' else f'file://{site}'}/index.html")
    type_question(browser, "quillan switched")
    assert len(cars_shown(browser)) == 3
    assert "3 records could be this car" in browser.run("return document.body.innerText")
    press(browser, "no")
    assert len(cars_shown(browser)) == 2
    press(browser, "yes")
    assert cars_shown(browser) == ["vehicles/quillan-lovage-2021-mid.html"]
    press(browser, "Start again")
    assert len(cars_shown(browser)) == 3
    press(browser, "I do not know")
    press(browser, "I do not know")
    assert "None of them is yours until the rest is known" in browser.run(
        "return document.body.innerText"
    )
    type_question(browser, "quillan constant")
    assert len(cars_shown(browser)) == 3
    assert browser.complaints() == []


def test_buttons_are_large_enough_and_nothing_scrolls_sideways(browser, address):
    browser.resize(360)
    browser.open(f"{address}/index.html")
    type_question(browser, "lovage")
    heights = browser.run(
        "return [...document.querySelectorAll('.finder-ask button')].map(b => b.offsetHeight)"
    )
    assert heights and min(heights) >= 48
    assert browser.run("return document.documentElement.scrollWidth") <= 360

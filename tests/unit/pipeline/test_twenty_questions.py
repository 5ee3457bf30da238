"""The command answers the questions of the table; the home page's test asks them too."""

from __future__ import annotations

import pytest
import yaml
from shipped_book import PINOUTS, ROOT

from builder.book import open_book
from builder.finder.entries import Entry
from builder.finder.forgiven import said_of
from builder.finder.parts import Part
from builder.finder.search import reply
from builder.pipeline.answers.answering import answers
from builder.pipeline.answers.book_parts import book_parts
from builder.pipeline.answers.kept_entries import finder_entries

QUESTIONS = yaml.safe_load((ROOT / "tests" / "questions.yaml").read_text("utf-8"))


@pytest.fixture(scope="module")
def entries() -> list[Entry]:
    return finder_entries(open_book(PINOUTS))


@pytest.fixture(scope="module")
def parts() -> list[Part]:
    return book_parts(open_book(PINOUTS))


def test_there_are_twenty_and_more():
    assert len(QUESTIONS) >= 20


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["ask"])
def test_the_command_answers(entries, parts, question):
    told = reply(question["ask"], entries, parts=parts)
    found = told.answers
    rows = {a.entry.id: [f"{row.plug} {row.cavity}" for row in a.rows] for a in found}
    assert rows == question["answers"]
    assert list(rows) == list(question["answers"])
    assert question.get("says", "") in " ".join(found[0].notes if found else ())
    assert said_of(told.read_as) == question.get("read", "")
    assert bool(told.missed) is not bool(found or question.get("missed") == "")
    assert question.get("missed", told.missed) == told.missed
    assert [part.id for part in told.parts] == question.get("parts", [])
    plans = [f"{a.entry.id}--{p.id}" for a in found for p in parts_with_plan(a.entry, told.planned)]
    assert plans == question.get("plans", [])


def parts_with_plan(car: Entry, parts: tuple[Part, ...]) -> list[Part]:
    return [part for part in parts if part.has_plan_with(car)]


def test_parts_are_found_by_their_words_where_nothing_else_fits():
    book = open_book(PINOUTS)
    found = {text: answers(book, text) for text in ("loom fronts", "interface ok", "zibbelin box")}
    assert [part.id for part in found["loom fronts"].parts] == ["sedge-fronts-out"]
    assert [part.id for part in found["interface ok"].parts] == ["ok-7n"]
    assert [one.missed == "" for one in found.values()] == [True, True, False]
    assert not found["zibbelin box"].parts


def test_no_make_answers_with_a_car_of_another(entries):
    models = {(entry.make, entry.model) for entry in entries}
    for make in sorted({make for make, _ in models}):
        for _, model in sorted(models):
            told = reply(f"{make} {model}".lower(), entries)
            assert {one.entry.make for one in told.answers} <= {make}, (make, model)
            assert bool(told.answers) is ((make, model) in models)
            assert told.answers or f'No {make} is called "{model.lower()}"' in told.missed

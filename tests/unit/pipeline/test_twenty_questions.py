"""The command answers the questions of the table; the home page's test asks them too."""

from __future__ import annotations

import pytest
import yaml
from shipped_book import PINOUTS, ROOT

from builder.book import open_book
from builder.finder.entries import Entry
from builder.finder.forgiven import said_of
from builder.finder.search import reply
from builder.pipeline.answers.answering import finder_entry, vehicles
from builder.proof.pin_proof import prove

QUESTIONS = yaml.safe_load((ROOT / "tests" / "questions.yaml").read_text("utf-8"))


@pytest.fixture(scope="module")
def entries() -> list[Entry]:
    book = open_book(PINOUTS)
    return [finder_entry(car, prove(car, book.defaults)) for _, car in vehicles(book)]


def test_there_are_twenty_and_more():
    assert len(QUESTIONS) >= 20


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["ask"])
def test_the_command_answers(entries, question):
    told = reply(question["ask"], entries)
    found = told.answers
    rows = {a.entry.id: [f"{row.plug} {row.cavity}" for row in a.rows] for a in found}
    assert rows == question["answers"]
    assert list(rows) == list(question["answers"])
    assert question.get("says", "") in " ".join(found[0].notes if found else ())
    assert said_of(told.read_as) == question.get("read", "")
    assert bool(told.missed) is not bool(found)
    assert question.get("missed", told.missed) == told.missed


def test_no_make_answers_with_a_car_of_another(entries):
    models = {(entry.make, entry.model) for entry in entries}
    for make in sorted({make for make, _ in models}):
        for _, model in sorted(models):
            told = reply(f"{make} {model}".lower(), entries)
            assert {one.entry.make for one in told.answers} <= {make}, (make, model)
            assert bool(told.answers) is ((make, model) in models)
            assert told.answers or f'No {make} is called "{model.lower()}"' in told.missed

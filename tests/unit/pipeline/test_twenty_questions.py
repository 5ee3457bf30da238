"""The command answers the questions of the table; the home page's test asks them too."""

from __future__ import annotations

import pytest
import yaml
from shipped_book import PINOUTS, ROOT

from builder.book import open_book
from builder.finder.entries import Entry
from builder.finder.search import find
from builder.pipeline.asking.answering import finder_entry, vehicles
from builder.pipeline.checking.proofs import prove

QUESTIONS = yaml.safe_load((ROOT / "tests" / "questions.yaml").read_text("utf-8"))


@pytest.fixture(scope="module")
def entries() -> list[Entry]:
    book = open_book(PINOUTS)
    return [finder_entry(car, prove(car, book.defaults)) for _, car in vehicles(book)]


def test_there_are_twenty_and_more():
    assert len(QUESTIONS) >= 20


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["ask"])
def test_the_command_answers(entries, question):
    found = find(question["ask"], entries)
    rows = {a.entry.id: [f"{row.plug} {row.cavity}" for row in a.rows] for a in found}
    assert rows == question["answers"]
    assert list(rows) == list(question["answers"])
    assert question.get("says", "") in " ".join(found[0].notes if found else ())

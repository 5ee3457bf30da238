"""How many keystrokes until the right answer stands first, for every question of the table.

Run with -s to see the table.
"""

from __future__ import annotations

import statistics
from typing import Any

import pytest
import yaml
from finder_page import open_finder, page_answers
from shipped_book import ROOT

pytestmark = pytest.mark.browser

QUESTIONS = [
    question
    for question in yaml.safe_load((ROOT / "tests" / "questions.yaml").read_text("utf-8"))
    if any(question["answers"].values()) and "not recorded" not in question.get("says", "")
    if "parts" not in question
]
"""Those with a right answer: rows shown in the place of what a car lacks are none, and who names a
part asks for its plan."""
MOST_IN_MEDIAN = 11
MOST_SHARE = 0.8
"""Of the letters of a question, in the median: what follows them has only to be right, too."""


def is_right(question: dict[str, Any], found: list[Any]) -> bool:
    """Whether the first car and its first row are those of the table."""
    car, places = next(iter(question["answers"].items()))
    rows = [f"{row[2]} {row[3]}" for row in found[0][1]] if found else []
    return bool(found) and found[0][0] == car and rows[:1] == places[:1]


def keystrokes(question: dict[str, Any], answers: list[Any]) -> int:
    """The length from which on the right answer stands first and stays there."""
    wrong = [at for at, found in enumerate(answers, start=1) if not is_right(question, found)]
    return max(wrong, default=0) + 1


def test_the_right_answer_comes_before_the_question_is_finished(browser, address):
    open_finder(browser, address)
    table = []
    for question in QUESTIONS:
        text = question["ask"]
        answers = page_answers(browser, [text[:end] for end in range(1, len(text) + 1)])
        table.append((keystrokes(question, answers), text))
    print()
    for needed, text in table:
        print(f"{needed:3} of {len(text):2}  {text[:needed]}|{text[needed:]}")
    median = statistics.median(needed for needed, _ in table)
    share = statistics.median(needed / len(text) for needed, text in table)
    print(f"{len(table)} questions, median {median:g} keystrokes, {share:.0%} of the text")
    assert len(table) >= 20
    assert [text for needed, text in table if needed > len(text)] == []
    assert median <= MOST_IN_MEDIAN
    assert share <= MOST_SHARE

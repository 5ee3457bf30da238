"""The home page answers the twenty questions of the table as the command does."""

from __future__ import annotations

import pytest
import yaml
from shipped_book import ROOT

pytestmark = pytest.mark.browser

QUESTIONS = yaml.safe_load((ROOT / "tests" / "questions.yaml").read_text("utf-8"))
ASK = """
  return arguments[0].map(text => window.loombookFinder.find(text).map(answer =>
    [answer.entry.id, answer.rows.map(row => row.plug + " " + row.cavity)]));
"""


def test_the_page_gives_the_answers_of_the_table(browser, address):
    browser.open(f"{address}/index.html")
    asked = [question["ask"] for question in QUESTIONS]
    expected = [[list(pair) for pair in question["answers"].items()] for question in QUESTIONS]
    assert browser.run(ASK, asked) == expected


def test_answers_appear_as_one_types(browser, address):
    browser.open(f"{address}/index.html")
    field = browser.driver.find_element("id", "finder-field")
    field.send_keys("kavo switched")
    text = str(browser.run("return document.getElementById('finder-answers').innerText"))
    assert "cavity 7" in text
    assert "red" in text
    assert "proven" in text

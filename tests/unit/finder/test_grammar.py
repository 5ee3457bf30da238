"""The grammar's table: each rule is what some question means, and any word fits one."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from builder.finder.grammar import RULES
from builder.finder.matching import first_rule
from builder.finder.tokens import tokens_of
from builder.finder.word_data import word_data

TEXTS = (
    *("and", "from 2016 to 2018", "from 2016", "until 2018", "before 2018", "after 2018"),
    *("2016 to 2018", "2016 up", "2016 on", "2016", "2016+", "2016-2018", "2016-18", "16-18"),
    *("20", "201", "hot at a", "white/black", "white", "white-black", "front left"),
    *("pin 4", "plug b", "plug x2", "switched", "fuse", "a4", "wire", "tansy"),
)
"""One text for each rule, in the order of the table."""


def test_every_rule_is_the_first_for_its_text() -> None:
    found = [RULES.index(first_rule(tokens_of(text), 0)[0]) for text in TEXTS]
    assert found == list(range(len(RULES)))


@given(st.text())
def test_any_word_fits_a_rule_and_takes_a_token(text: str) -> None:
    tokens = tokens_of(text)
    assert all(first_rule(tokens, at)[1].span > 0 for at in range(len(tokens.words)))


def test_the_page_gets_the_same_rules() -> None:
    rows = word_data()["grammar"]
    assert [(kind, value) for kind, _, value in rows] == [(rule.kind, rule.value) for rule in RULES]

"""The order of trade as the handbook prints it."""

from __future__ import annotations

from builder.planning.course.trade import TRADE
from builder.rendering.trade_rows import WORDS, trade_table


def test_each_tag_has_words_of_its_own_and_none_is_left_over() -> None:
    tags = {tag for row in TRADE for tag in (row.first, row.then)}
    assert WORDS.keys() == tags
    assert len(set(WORDS.values())) == len(WORDS)
    assert not any("_" in words for words in WORDS.values())


def test_each_constraint_is_a_row_with_its_reason() -> None:
    _, _, *rows = trade_table().splitlines()
    assert len(rows) == len(TRADE)
    assert all(row.because in line for row, line in zip(TRADE, rows, strict=True))

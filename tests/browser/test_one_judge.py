"""One judge: a figure in its band, asked of the command's core and of the scripts of the pages."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import pytest
from chromium import CHROMIUM, Browser

from builder.model.house_defaults import HouseDefaults
from builder.proof.band import Band, limit_at, where_in
from builder.proof.signatures.of_pins import kinds

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
KINDS = list(kinds(HouseDefaults()).values())
BATTERIES = (None, 0.0, 9.8, 11.9, 12.2, 12.6, 13.5, 14.2)
ASK = """
const table = window.loombookIdentifyData, judge = window.loombookJudge;
return arguments[0].map(([kind, row, battery, value]) => {
  const line = table.kinds[kind].rows[row];
  return judge.whereIn(line.low, line.high, value, battery);
});
"""


def figures(band: Band, battery_v: float | None) -> Iterator[float | None]:
    """An open circuit, figures about every limit, as near as matters, and some far off."""
    yield from (None, 0.0, -0.6, 6.3, 12.05, 13.4, 4700.0)
    for bound in band:
        if bound is not None:
            at = limit_at(bound, battery_v or 0.0)
            yield from (at, at - 1e-8, at + 1e-8, at - 0.005, at + 0.005)
            yield from (math.nextafter(at, -math.inf), math.nextafter(at, math.inf))


def grid() -> Iterator[tuple[list[Any], str]]:
    for kind_at, kind in enumerate(KINDS):
        for row_at, row in enumerate(kind.rows):
            for battery_v in BATTERIES:
                for value in figures(row.band, battery_v):
                    yield [kind_at, row_at, battery_v, value], where_in(row.band, value, battery_v)


def test_the_page_judges_every_line_at_every_battery_as_the_core(
    browser: Browser, address: str
) -> None:
    browser.open(f"{address}/identify.html")
    asked = list(grid())
    answers = browser.run(ASK, [case for case, _ in asked])
    assert isinstance(answers, list) and len(answers) > 9000
    wrong = [
        (KINDS[case[0]].id, KINDS[case[0]].rows[case[1]].states, case[2:], ours, theirs)
        for (case, ours), theirs in zip(asked, answers, strict=True)
        if ours != theirs
    ]
    assert wrong == []
    assert {ours for _, ours in asked} == {"in", "low", "high", "unjudged"}

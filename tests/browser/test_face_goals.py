"""The goals of the face that depend on no clock: taps and scrolling to an answer, screens, bytes.

Pages of paper are counted in `test_print.py`; the whole table is printed by
`tests/benchmarks/bench_face.py`.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from chromium import Browser
from shipped_book import ROOT

sys.path.append(str(ROOT / "tests" / "benchmarks"))
from face_figures import GOALS, Figure, sized, walked, weighed

pytestmark = pytest.mark.browser
NOT_YET: dict[str, float] = {}
"""Figures that miss their goal, and the most that each may be meanwhile. Who reaches a goal takes
its line out, and it stays reached."""


@pytest.fixture(scope="module")
def figures(chromium: Browser, site: Path) -> dict[str, Figure]:
    found = [*walked(chromium, site), *sized(chromium, site), *weighed(site)]
    return {figure.what: figure for figure in found}


def test_no_figure_is_worse_than_its_goal(figures: dict[str, Figure]) -> None:
    beyond = {
        what: round(figure.value, figure.places)
        for what, figure in figures.items()
        if round(figure.value, figure.places) > NOT_YET.get(what, GOALS.get(what, float("inf")))
    }
    assert beyond == {}


def test_what_reached_its_goal_is_no_longer_excused(figures: dict[str, Figure]) -> None:
    assert [what for what in NOT_YET if figures[what].is_met] == []


def test_each_goal_without_a_clock_or_paper_is_measured(figures: dict[str, Figure]) -> None:
    elsewhere = {what for what in GOALS if what.endswith(": ms") or ": pages " in what}
    assert set(GOALS) - elsewhere <= set(figures)

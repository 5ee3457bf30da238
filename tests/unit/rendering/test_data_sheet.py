"""A data sheet's chip stands in the handbook's list of numbers, and beside no car."""

from __future__ import annotations

import re

import pytest
from shipped_book import PINOUTS, loombook

from builder.data_files import templates_folder
from builder.model.house_defaults import HouseDefaults
from builder.planning.tables import DATA_SHEET_SOURCE
from builder.rendering.handbook import fill_in

NUMBERS = (templates_folder() / "handbook" / "numbers.md").read_text("utf-8")
CHIP = re.compile(re.escape(DATA_SHEET_SOURCE.split()[0]))


def test_the_handbook_names_the_source_of_the_one_percent_point():
    page = fill_in(NUMBERS, HouseDefaults())
    assert f"23 W into 4 Ω, 9.59 V ({DATA_SHEET_SOURCE})." in page


@pytest.mark.parametrize("job", ["tansy-subwoofer", "leto-four-doors"])
def test_no_plan_names_it(job: str):
    printed = loombook("plan", job, "-b", PINOUTS, "--format", "json").output
    assert "1 % point of a bridge (published)" in printed
    assert not CHIP.search(printed)

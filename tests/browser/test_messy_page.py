"""A messy car described on the record page: whole, and in ten minutes; -s prints its rows."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from benchmarks.ten_minutes import HEAD, row
from maker_page import MakerPage
from messy_cars import CARS, FOLDER, MOST_MIN, ON_A_PAGE, empty_book
from messy_page import Hand
from shipped_book import ROOT, loombook

pytestmark = pytest.mark.browser
TOLD = ROOT / "site_templates" / "handbook" / "ten-minutes.md"
CLEAN = "Nothing that can be checked here is wrong or missing."


@pytest.mark.parametrize("car", CARS)
def test_a_messy_car_comes_in_by_the_page(
    browser: Any, address: str, tmp_path: Path, car: str
) -> None:
    browser.resize(390)
    hand = Hand(MakerPage(browser, address).emptied())
    hand.do((FOLDER / car / "page.txt").read_text("utf-8"))
    said, files = hand.page.take()
    assert said == [CLEAN]
    book = empty_book(tmp_path)
    for name, text in files.items():
        (book / name).parent.mkdir(parents=True, exist_ok=True)
        (book / name).write_text(text, "utf-8")
    assert loombook("check", book).exit_code == 0
    cost = hand.cost(book, car, [])
    printed = row(car, ON_A_PAGE, cost)
    print(f"\n{HEAD}\n{printed}")
    assert printed in TOLD.read_text("utf-8").splitlines()  # the handbook prints what is so
    assert cost.lost == cost.more == ()
    assert cost.minutes <= MOST_MIN
    assert browser.complaints() == []

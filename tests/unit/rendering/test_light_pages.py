"""A car of the book weighs what it says: nothing long stands twice in the pictures of a plan."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from statistics import mean

MOST_KB = 475
"""Of a car, on the average of the shipped book: its page, its plans, its data. It was 692 before
signs, housings and the lines of a wire stood once, and 527 before plans shared their data."""
LONG = re.compile(r' d="([^"]{60,})"')
PICTURES = re.compile(r'<svg class="lb-drawing lb-wiring(?:-piece)?".*?</svg>', re.S)


def files_of(site: Path, car: str) -> list[Path]:
    """What is written of one car and of nothing else."""
    plans = sorted((site / "plans").glob(f"{car}--*.html"))
    return [site / "vehicles" / f"{car}.html", site / "data" / "vehicles" / f"{car}.json", *plans]


def test_a_car_weighs_no_more_than_it_did(shipped_site: Path) -> None:
    cars = [file.stem for file in (shipped_site / "data" / "vehicles").glob("*.json")]
    weights = [sum(file.stat().st_size for file in files_of(shipped_site, car)) for car in cars]
    assert len(cars) > 15
    assert 0 < mean(weights) / 1000 < MOST_KB


def test_no_long_line_of_a_picture_is_written_twice(shipped_site: Path) -> None:
    seen = 0
    for page in sorted((shipped_site / "plans").glob("*.html")):
        for picture in PICTURES.findall(page.read_text("utf-8")):
            lines = Counter(LONG.findall(picture))
            assert [line for line, often in lines.items() if often > 1] == [], page.name
            seen += len(lines)
    assert seen > 20

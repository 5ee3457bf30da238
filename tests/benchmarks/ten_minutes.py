"""What it costs a shop to bring a messy car into the book, by each way at the terminal.

Run: python tests/benchmarks/ten_minutes.py

Does the sessions of `tests/messy` and prints what they came to; `tests/messy_cars.py` says by which
rule minutes are counted. The page in a browser prints its own rows:
python -m pytest tests/browser/test_messy_page.py -s
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

from messy_cars import WAYS, Cost, empty_book, measured, sessions  # noqa: E402

HEAD = (
    "| car | way | prompts | keystrokes | taps | findings | lost | minutes |\n" + "|---" * 8 + "|"
)


def row(car: str, way: str, cost: Cost) -> str:
    """One row of the table."""
    taps = cost.taps + 2 * cost.marks
    counts = f"{cost.prompts} | {cost.keys} | {taps} | {cost.findings} | {len(cost.lost)}"
    return f"| {car} | {way} | {counts} | {cost.minutes:.1f} |"


def main() -> None:
    """Print the table."""
    print(HEAD)
    for car, way in sessions():
        with tempfile.TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
            print(row(car, WAYS[way], measured(car, way, empty_book(Path(folder)), patch)[0]))


if __name__ == "__main__":
    main()

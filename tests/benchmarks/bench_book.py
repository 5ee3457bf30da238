"""`check`, questions and `build` on a generated book, beside what others take for the same.

Run: python tests/benchmarks/bench_book.py [vehicles]

Prints seconds of this run and the ratios between them; machines differ and drift, so only
the ratios are worth quoting. Nothing here is asserted. `growth.py` measures several sizes.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from book_steps import STEPS, Bench, first_check, show
from measured_runs import Ran

SMALL = 20
"""Vehicles of the book that answers are compared with."""
RATIOS = (
    ("generic schema check", "check, first"), ("check, first", "check, unchanged"),
    ("check, first", "check, one edit"), ("build, first", "build, unchanged"),
    ("build, first", "build, one edit"), ("build, first", "plain write of the site"),
    ("general site generator", "build, first"),
)  # fmt: skip
"""Which step took how many times as long as which other."""


def main() -> None:
    """Make the book, take every step, print the table and the ratios."""
    vehicles = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as folder:
        bench, found = Bench(Path(folder), vehicles), dict[str, Ran]()
        for name, step in STEPS.items():
            found[name] = one = step(bench)
            print(f"{name:26}{one.seconds:9.2f} s {one.together_mb:7.0f} MB   {one.said[:60]}")
        for one_name, other in RATIOS:
            ratio = found[one_name].seconds / found[other].seconds
            print(f"{one_name} to {other}: {ratio:.2f}")
    with tempfile.TemporaryDirectory() as folder:
        few = Bench(Path(folder), SMALL)
        first_check(few)
        print(f"show to that of {SMALL} vehicles: {found['show'].seconds / show(few).seconds:.2f}")


if __name__ == "__main__":
    main()

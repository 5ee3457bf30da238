"""What a person sees of the site on a phone: taps, screens, words, paper, bytes and times.

    python tests/benchmarks/bench_face.py SITE [ANOTHER_SITE] [--cars 10000] [--write]

prints a table of one built site, or of two side by side, each figure beside its goal and what it
was before. `--write` keeps the table of the first site in `face.md` beside this file, so that a
change of the face shows what it did in its own diff. Times are with the processor slowed four times
and the least of several, since other work on the machine only adds; nothing is asserted here. Goals
that do not depend on a clock are held by `tests/browser/test_face_goals.py`.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from itertools import zip_longest
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parents[2])]
from face_figures import (  # noqa: E402
    BEFORE,
    Figure,
    painted,
    printed,
    sized,
    typed,
    walked,
    weighed,
)
from face_walks import ROOT, Browser  # noqa: E402

KEPT = ROOT / "tests" / "benchmarks" / "face.md"
HEAD = """# Figures of the face

Written by `python tests/benchmarks/bench_face.py SITE --write`, of the shipped book, on a phone of
390 by 844. Times are with the processor slowed four times, the least of several, of the machine
that it was written on; keystrokes in a book of {cars} cars. Before: the last site without pin card,
wiring picture and bay mode, its places counted from the top of the page. Sheets have
their folds shut.

| figure | before | now | goal | |
|---|--:|--:|--:|---|
"""


def figures(site: Path, cars: int) -> Iterator[Figure]:
    """Yield all figures of a built site; without cars no keystroke is timed."""
    browser = Browser()
    try:
        yield from walked(browser, site)
        yield from sized(browser, site)
        yield from weighed(site)
        yield from printed(browser, site)
        yield from painted(browser, site)
    finally:
        browser.driver.quit()
    if cars:
        yield from typed(cars)


def cells(figure: Figure) -> tuple[str, str, str, str, str]:
    """The cells of one row of the kept table: what, before, now, goal, and whether it is missed."""
    goal = "" if figure.goal is None else f"{figure.goal:g}"
    missed = "" if figure.is_met else "not met"
    return figure.what, BEFORE.get(figure.what, ""), shown(figure), goal, missed


def shown(figure: Figure) -> str:
    """The value as it is printed."""
    return f"{figure.value:,.{figure.places}f}"


def kept_text(found: Sequence[Figure], cars: int) -> str:
    """The text of the kept table."""
    return HEAD.format(cars=f"{cars:,}") + "".join(
        f"| {' | '.join(cells(figure))} |\n" for figure in found
    )


def lines(sites: Sequence[Sequence[Figure]]) -> Iterator[str]:
    """Yield the table to look at, a column for each site."""
    for row in zip_longest(*sites):
        what, before, _, goal, missed = cells(row[0])
        values = "".join(f"{shown(figure):>12}" for figure in row)
        yield f"{what:48}{before:>22}{values}{goal:>8}  {missed}".rstrip()


def main() -> None:
    """Measure the sites that are named, print the table, and keep it when that is asked for."""
    asked = argparse.ArgumentParser(description="Figures of the face of built sites.")
    asked.add_argument("sites", nargs="+", type=Path)
    asked.add_argument("--cars", type=int, default=10_000, help="0 to time no keystrokes")
    asked.add_argument("--write", action="store_true", help="keep the first site's table")
    given = asked.parse_args()
    if given.write and not given.cars:
        asked.error("a table is kept with its keystrokes: leave --cars out")
    found = [list(figures(site.resolve(), given.cars)) for site in given.sites]
    print(f"{'':48}{'before':>22}{''.join(f'{s.name[-11:]:>12}' for s in given.sites)}    goal")
    for line in lines(found):
        print(line)
    if given.write:
        KEPT.write_text(kept_text(found[0], given.cars), "utf-8")


if __name__ == "__main__":
    main()

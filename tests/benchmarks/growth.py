"""How checks, questions and builds grow with a book: time, memory, and the exponents of both.

    python tests/benchmarks/growth.py 100 300 1000 [--work FOLDER] [--beside 1000]

Writes `growth.md` beside this file, a row as soon as it is measured. Ended midway and called again
with the same folder for the work, it goes on where it was; a size that was measured with another
state of the code, or whose folder is gone, is measured anew. Sizes that are not asked for keep
their rows. Times are of the machine that it was written on, and nothing is asserted: quote
ratios within one size, and exponents.
"""

from __future__ import annotations

import argparse
import math
import shutil
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from book_steps import BESIDE_ALONE, STEPS, Bench
from measured_runs import Ran

ROOT = Path(__file__).resolve().parents[2]
KEPT = Path(__file__).with_name("growth.md")
HEAD = """# How a book grows

Written by `python tests/benchmarks/growth.py SIZES`, of generated books. Largest: the most memory
that one process had. Together: the most that all had at once, shared pages counted once, looked at
every tenth of a second. Questions are the quickest of three. The generic command checks the same
files against the schema alone, with no rule; the general site generator puts the ready HTML of the
same pages into one layout. Rows of one size are of one run, unless it was ended midway.
"""
SIZE = "## {vehicles:,} vehicles, at {state}"
COLUMNS = "| step | s | largest MB | together MB | said |\n|---|--:|--:|--:|---|"
FEWEST = 3
"""Points that a line is drawn through at least."""


class Row(NamedTuple):
    """One step at one size."""

    step: str
    seconds: float
    largest_mb: float
    together_mb: float
    said: str

    @property
    def line(self) -> str:
        """The row as it stands in the table."""
        said = self.said.replace("|", "/")[:80]
        figures = f"{self.seconds:.3f} | {self.largest_mb:.0f} | {self.together_mb:.0f}"
        return f"| {self.step} | {figures} | {said} |"


class Size(NamedTuple):
    """What is measured of a book of so many vehicles, with one state of the code."""

    state: str
    rows: tuple[Row, ...]


Sizes = dict[int, Size]


def read(text: str) -> Sizes:
    """Return what stands in a kept table."""
    found: Sizes = {}
    vehicles = 0
    for line in text.splitlines():
        if line.startswith("## ") and " vehicles, at " in line:
            number, state = line[3:].split(" vehicles, at ")
            vehicles = int(number.replace(",", ""))
            found[vehicles] = Size(state, ())
        elif line.startswith("## "):
            vehicles = 0
        elif vehicles and line.startswith("| ") and not line.startswith("| step"):
            step, *figures, said = [cell.strip() for cell in line.strip("|").split("|")]
            row = Row(step, *map(float, figures), said)  # type: ignore[call-arg, arg-type]
            found[vehicles] = found[vehicles]._replace(rows=(*found[vehicles].rows, row))
    return found


def text_of(sizes: Sizes) -> str:
    """Return the text of the table: each size, then the exponents over all of them."""
    parts = [HEAD]
    for vehicles, size in sorted(sizes.items()):
        heading = SIZE.format(vehicles=vehicles, state=size.state)
        parts.append("\n".join((heading, "", COLUMNS, *(row.line for row in size.rows), "")))
    return "\n".join([*parts, *_exponents(sizes)])


def _exponents(sizes: Sizes) -> Iterator[str]:
    points: defaultdict[str, list[tuple[int, Row]]] = defaultdict(list)
    for vehicles, size in sorted(sizes.items()):
        for row in size.rows:
            points[row.step].append((vehicles, row))
    lines = [
        f"| {step} | {len(of_step)} | {exponent((n, r.seconds) for n, r in of_step):.2f} | "
        f"{exponent((n, r.together_mb) for n, r in of_step):.2f} |"
        for step, of_step in points.items()
        if len(of_step) >= FEWEST
    ]
    if lines:
        yield "## Exponents\n\nOf the least-squares line through logarithms: 1 is twice of twice.\n"
        yield "\n".join(("| step | sizes | time | memory |\n|---|--:|--:|--:|", *lines, ""))


def exponent(points: Iterable[tuple[float, float]]) -> float:
    """Return the slope of the least-squares line through the logarithms of points.

    Points with a figure that has no logarithm are left out; fewer than two points give nan.

    >>> exponent([(1, 3), (10, 300), (100, 30_000)])
    2.0
    """
    logs = [(math.log(x), math.log(y)) for x, y in points if x > 0 and y > 0]
    if len(logs) < 2:
        return math.nan
    middle = [sum(each) / len(logs) for each in zip(*logs, strict=True)]
    rise = sum((x - middle[0]) * (y - middle[1]) for x, y in logs)
    return round(rise / sum((x - middle[0]) ** 2 for x, _ in logs), 6)


def measure(
    vehicles: int, kept: Size | None, state: str, work: Path, beside: int
) -> Iterator[Size]:
    """Yield what is known of a size after each step that is still to be taken."""
    folder = work / str(vehicles)
    if kept is None or kept.state != state or not folder.is_dir():
        kept = Size(state, ())
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
    bench, done = Bench(folder, vehicles), {row.step for row in kept.rows}
    for name, step in STEPS.items():
        if name in done or (name in BESIDE_ALONE and vehicles > beside):
            continue
        kept = kept._replace(rows=(*kept.rows, _row(name, step(bench))))
        yield kept


def _row(name: str, one: Ran) -> Row:
    return Row(name, one.seconds, one.largest_mb, one.together_mb, one.said)


def state_of_code() -> str:
    """Return the commit that is measured; with "+" where files differ from it."""

    def git(*words: str) -> str:
        asked = ["git", "-C", str(ROOT), *words]
        return subprocess.run(asked, capture_output=True, text=True, check=True).stdout.strip()

    changed = git("status", "--porcelain", "--", "builder", "schema", "site_templates")
    return git("rev-parse", "--short", "HEAD") + ("+" if changed else "")


def kept_sizes(file: Path) -> Sizes:
    """Return what was measured before; nothing where there is no table."""
    return read(file.read_text("utf-8")) if file.is_file() else {}


def save(sizes: Mapping[int, Size], file: Path) -> None:
    """Write the table whole, in the place of the one before."""
    new = file.with_suffix(".new")
    new.write_text(text_of(dict(sizes)), "utf-8")
    new.replace(file)


def main(words: Sequence[str]) -> None:
    """Measure the sizes that are asked for, the smallest first."""
    asked = argparse.ArgumentParser(description="How a book grows.")
    asked.add_argument("sizes", nargs="+", type=int, help="vehicles of each book")
    place = Path(tempfile.gettempdir()) / "loombook-growth"
    asked.add_argument("--work", type=Path, default=place, help="where the books are made")
    asked.add_argument(
        "--beside", type=int, default=1000, help="the largest book for the generic tools"
    )
    given = asked.parse_args(words)
    state = state_of_code()
    sizes = kept_sizes(KEPT)
    for vehicles in sorted(given.sizes):
        for size in measure(vehicles, sizes.get(vehicles), state, given.work, given.beside):
            sizes[vehicles] = size
            save(sizes, KEPT)
            print(vehicles, size.rows[-1].line, flush=True)
        shutil.rmtree(given.work / str(vehicles) / "site", ignore_errors=True)


if __name__ == "__main__":
    main(sys.argv[1:])

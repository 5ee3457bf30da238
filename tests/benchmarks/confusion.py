"""Print how often the readings of one kind of wire are taken for another: the confusion matrix.

Rows are the kinds of wire that were drawn, columns what `identify` answers. Of each kind many
wires are drawn, each a few lines of its signature with a figure inside their bands, without a
load. With every figure in its band the right function can be tied but not beaten, so the second
part spoils one reading of each wire: a figure out of its band, as from a wrong state of the car.

    python tests/benchmarks/confusion.py [WIRES_A_KIND]

The figures say how the table behaves on wires drawn evenly from its own bands; they say nothing
of real cars, whose wires nobody has drawn.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path
from random import Random
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1] / "browser"))

from reading_cases import SEED, Drawn, outside, reading_of

from builder.model.house_defaults import HouseDefaults
from builder.proof.identify.naming import identify
from builder.proof.signatures.of_pins import kinds
from builder.proof.signatures.shapes import Expected, Kind

READINGS = (2, 3, 9)
BATTERIES = (11.9, 12.4, 12.6, 12.9)
SHOWN = 3


class Tally(NamedTuple):
    """What became of the wires of one kind.

    `answers` counts "right", "tie" (with the right function in it), "leads" (alone at the top
    but not decided) and "lost"; `wrong` the functions decided for instead, `tied` those in ties.
    """

    answers: Counter[str]
    wrong: Counter[str]
    tied: Counter[str]


def wire(random: Random, kind: Kind, count: int, spoil: bool) -> list[Drawn]:
    """Readings of one wire: at most `count` lines that can be read without a load."""
    battery_v = random.choice(BATTERIES)
    lines = [row for row in kind.rows if not row.loads or "none" in row.loads]
    chosen = random.sample(lines, min(count, len(lines)))
    drawn = [_reading(random, row, battery_v) for row in chosen]
    if spoil:
        at = random.randrange(len(drawn))
        drawn[at] = drawn[at]._replace(value=outside(random, chosen[at], battery_v))
    return drawn


def _reading(random: Random, row: Expected, battery_v: float) -> Drawn:
    return reading_of(random, row, battery_v, fits=True)._replace(load="none")


def tally(kind: Kind, wires: list[list[Drawn]], defaults: HouseDefaults) -> Tally:
    """Count what is answered for wires of one kind."""
    found = Tally(Counter(), Counter(), Counter())
    for readings in wires:
        said = identify(readings, defaults)
        right = kind.function in said.tie
        if said.decided:
            found.answers["right" if right else "wrong"] += 1
            found.wrong.update(() if right else said.tie)
        elif len(said.tie) > 1:
            found.answers["tie" if right else "lost"] += 1
            found.tied.update(name for name in said.tie if name != kind.function)
        else:
            found.answers["leads" if right else "lost"] += 1
    return found


def print_matrix(wires: int, count: int, spoil: bool) -> None:
    """Draw and print one matrix."""
    random, defaults = Random(SEED), HouseDefaults()
    how = "one reading spoilt" if spoil else "all in band"
    print(f"\n{wires} wires a kind, at most {count} readings a wire, {how}")
    columns = ("right", "tie", "leads", "lost", "wrong")
    print(
        f"{'kind drawn':34}"
        + "".join(f"{name:>7}" for name in columns)
        + "  decided for; tied with"
    )
    total: Counter[str] = Counter()
    for kind in kinds(defaults).values():
        drawn = [wire(random, kind, count, spoil) for _ in range(wires)]
        found = tally(kind, drawn, defaults)
        total.update(found.answers)
        numbers = "".join(f"{found.answers[name]:>7}" for name in columns)
        print(f"{kind.id:34}{numbers}  {_most(found.wrong)}; {_most(found.tied)}")
    print(f"{'all':34}" + "".join(f"{total[name]:>7}" for name in columns))


def _most(names: Counter[str]) -> str:
    return ", ".join(f"{name} {times}" for name, times in names.most_common(SHOWN)) or "–"


def main() -> None:
    """Print every matrix."""
    wires = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    for spoil in (False, True):
        for count in READINGS:
            print_matrix(wires, count, spoil)


if __name__ == "__main__":
    main()

"""Cars drawn at random, each played a track, recorded and read: what the reading got wrong.

    .venv/bin/python tests/long/sound_cars.py                     300 cars from seed 0
    .venv/bin/python tests/long/sound_cars.py --cars 20 --seed 7
    .venv/bin/python tests/long/sound_cars.py --write             keeps the table as sound_cars.md
    .venv/bin/python tests/long/sound_cars.py --again 63          some cars of it once more

Every fourth car is recorded through lead and recorder that take bass away, and has a recording
without the car beside it. Limits stand in `tests/sound_trials.py`; a value has to lie within what
it says of itself, too. The exit code is 1 when one car is wrong.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).resolve()
sys.path[:0] = [str(HERE.parents[1]), str(HERE.parents[2])]

from sound_trials import FACTS, Fact, Trial, tried  # noqa: E402

KEPT = HERE.with_suffix(".md")
HEAD = """# Simulated cars, read

Written by `python tests/long/sound_cars.py --write` at {commit}: {cars} cars from seed {seed}, each
played the track, recorded and read; {wrong} of them wrong. A limit with a + is that of the method:
where noise or the lead leaves more open, the recording says so, and what it says has to hold. Worst
is the largest error of all that were told, in the unit of the limit. Cars are drawn in
`tests/sound_drawn.py`, judged in `tests/sound_trials.py`.

| fact | limit | told | refused | worst | missed |
|---|--:|--:|--:|--:|--:|
"""


@dataclass
class Counted:
    """What became of one fact in all cars."""

    told: int = 0
    refused: int = 0
    missed: int = 0
    worst: float = 0.0


def main() -> int:
    """Try the cars, print what is wrong with each, then what became of each fact."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--cars", type=int, default=300)
    asked.add_argument("--seed", type=int, default=0)
    asked.add_argument("--write", action="store_true", help="keep the table")
    asked.add_argument("--again", type=int, nargs="+", help="cars of the kept table to try again")
    given = asked.parse_args()
    if given.again:
        return _again(given.again)
    counts: dict[Fact, Counted] = defaultdict(Counted)
    state, wrong = commit(), 0
    for seed in range(given.seed, given.seed + given.cars):
        trial = tried(seed)
        wrong += bool(trial.missed)
        for missed in trial.missed:
            print(f"seed {seed}, {trial.how}: {missed}", flush=True)
        _count(counts, trial)
    head = HEAD.format(commit=state, cars=given.cars, seed=given.seed, wrong=wrong)
    text = head + "".join(_row(fact, counts[fact]) for fact in FACTS)
    print(text)
    if given.write:
        KEPT.write_text(text, "utf-8")
    return int(wrong > 0)


def _again(seeds: list[int]) -> int:
    """Try cars once more that were wrong, and say under the kept table what came of them."""
    wrong = {seed: missed for seed in seeds if (missed := tried(seed).missed)}
    told = "; ".join(f"seed {seed}: {', '.join(missed)}" for seed, missed in wrong.items())
    line = (
        f"Tried again at {commit()}: seeds {', '.join(map(str, seeds))}, {told or 'all right'}.\n"
    )
    print(line)
    KEPT.write_text(f"{KEPT.read_text('utf-8')}\n{line}", "utf-8")
    return int(bool(wrong))


def _count(counts: dict[Fact, Counted], trial: Trial) -> None:
    for each in trial.judged:
        counted = counts[each.fact]
        counted.told += each.error is not None
        counted.refused += each.error is None
        counted.missed += bool(each.missed)
        counted.worst = max(counted.worst, each.error or 0.0)


def _row(fact: Fact, counted: Counted) -> str:
    if fact.unit:
        is_share = fact.unit == "of it"
        scale, unit = (100, "%") if is_share else (1, fact.unit)
        limit = f"{scale * fact.within:g} {unit}{' +' if fact.own else ''}"
        worst = f"{scale * counted.worst:.2g} {unit}"
    else:
        limit, worst = "always" if fact.always else "where told", ""
    cells = (fact.name, limit, counted.told, counted.refused, worst, counted.missed)
    return f"| {' | '.join(map(str, cells))} |\n"


def commit() -> str:
    """The state that is tried, and whether it is one that was committed."""

    def git(*words: str) -> str:
        done = subprocess.run(
            ["git", *words], cwd=HERE.parent, capture_output=True, text=True, check=False
        )
        return done.stdout.strip() if done.returncode == 0 else ""

    changed = git("status", "--porcelain", "--", "../../builder", "..")
    name = git("rev-parse", "--short=10", "HEAD") or "no commit"
    return f"{name}, changed since" if changed else name


if __name__ == "__main__":
    sys.exit(main())

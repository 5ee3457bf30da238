"""Cars drawn at random, each played a track, recorded and read: what the reading got wrong.

    .venv/bin/python tests/long/sound_cars.py                     300 cars from seed 0
    .venv/bin/python tests/long/sound_cars.py --cars 20 --seed 7

Bounds: clock 0.1 ppm, levels 0.05 dB in the analysis and 0.3 dB absolute from 3 V on, delay 5 µs of
pairs that play alike and 20 µs with a crossover between, polarity and order of an all-pass always,
its corner 2 %, a crossover's type always and its corner 3 % against a pair that plays all, the
place where two halves are equally loud 3 %. A value has to lie within what it says of itself, too.
The exit code is 1 when one car is wrong.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path

sys.path[:0] = [str(Path(__file__).resolve().parents[1]), str(Path(__file__).resolve().parents[2])]

from sound_trials import tried  # noqa: E402

from builder.sound.results import Refused  # noqa: E402


def main() -> int:
    """Try the cars, print what is wrong with each, then how often what was refused."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--cars", type=int, default=300)
    asked.add_argument("--seed", type=int, default=0)
    given = asked.parse_args()
    wrong, refused = 0, Counter[str]()
    for seed in range(given.seed, given.seed + given.cars):
        trial = tried(seed)
        wrong += bool(trial.missed)
        for missed in trial.missed:
            print(f"seed {seed}, {trial.how}: {missed}", flush=True)
        refused.update(_refused(trial.facts))
    for what, count in sorted(refused.items()):
        print(f"refused: {what}, {count} times")
    print(f"{wrong} of {given.cars} cars wrong")
    return int(wrong > 0)


def _refused(facts):
    """Which results of a recording were refused."""
    for pair in facts.pairs:
        for name in ("lower_edge_hz", "upper_edge_hz", "clean_step", "apart_db"):
            if isinstance(getattr(pair, name), Refused):
                yield name
    for two in facts.between:
        for half in two.crossovers:
            for name in ("corner_hz", "kind", "slope_db"):
                if isinstance(getattr(half, name), Refused):
                    yield f"crossover {name}"


if __name__ == "__main__":
    sys.exit(main())

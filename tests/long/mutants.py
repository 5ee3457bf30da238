"""Places of the planner and of the proof changed one at a time: some test has to notice each.

    .venv/bin/python tests/long/mutants.py                      500 places from seed 1
    .venv/bin/python tests/long/mutants.py --places 40 --seed 7 --jobs 1
    .venv/bin/python tests/long/mutants.py --again FILE         those that such a run printed

Only tests that run the changed line are tried, the cheapest first (`mutant_lines.py`), each change
in a child of its own (`mutant_trials.py`). What no test noticed is printed as file:line and what
was changed; the exit code is 1 under nine in ten.
"""

from __future__ import annotations

import argparse
import importlib
import os
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from mutant_lines import KEPT, Recorded, Recorder, in_child, place_of, recorded_of
from mutant_places import ROOT, SOURCES, Place, every_place
from mutant_tests import WHOLE, Trial, chosen_files, trial_of
from mutant_trials import Bench, pytest_main, try_by_import

TESTS = (
    "tests/unit/planning", "tests/unit/proof", "tests/rules", "tests/oracles", WHOLE,
)  # fmt: skip
BELOW = (
    "click", "jinja2", "yaml", "jsonschema_rs", "openpyxl", "builder.book", "builder.editing",
    "builder.parsing", "builder.schema_check", "builder.spreadsheets",
)  # fmt: skip
"""Imported once for every child: what imports nothing that is changed."""
LEAST_SHARE = 0.9


def options() -> argparse.Namespace:
    """What was asked for."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--places", type=int, default=500)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--jobs", type=int, default=2, help="processes at a time")
    asked.add_argument("--again", type=Path, help="a file of lines that an earlier run printed")
    asked.add_argument("--tests", nargs="*", default=TESTS, help="files and folders of tests")
    return asked.parse_args()


def chosen(given: argparse.Namespace, every: list[Place]) -> list[Place]:
    """The places to try: drawn, or those of an earlier run wherever they stand today."""
    if given.again is None:
        return random.Random(given.seed).sample(every, min(given.places, len(every)))
    found: list[Place] = []
    for line in given.again.read_text("utf-8").splitlines():
        where, _, what = line.partition(" ")
        name, _, number = where.partition(":")
        same = [p for p in every if (p.name, p.what) == (name, what) and p not in found]
        found += sorted(same, key=lambda place: abs(place.line - int(number)))[:1]
    return found


def record(files: list[Path]) -> None:
    """Have on record what each test runs."""
    if all(place_of(file).exists() for file in (Path("imports"), *files)):
        return

    def work() -> None:
        recorder = Recorder()
        with recorder.tracer:
            recorder.import_all()
            pytest_main([str(file) for file in files], recorder)

    os.waitpid(in_child(quiet(work)), 0)


def quiet(work: Callable[[], object]) -> Callable[[], None]:
    """The same work with nothing printed."""

    def silent() -> None:
        for stream in (1, 2):
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream)
        work()

    return silent


Numbered = list[tuple[int, Trial]]
Noting = Callable[[int, str], None]


def tried(trials: list[Trial], recorded: Recorded, files: list[Path], jobs: int) -> list[str]:
    """How each trial ended: alive | noticed | too long. What nothing noticed is printed.

    Raises:
        RuntimeError: a process ended before its share was done.
    """

    def in_functions(share: Numbered, note: Noting) -> None:
        pytest_main([str(file) for file in files], Bench(share, note))

    def by_import(share: Numbered, note: Noting) -> None:
        for number, trial in share:
            note(number, try_by_import(trial, recorded) if trial.by_import else "alive")

    quick = [each for each in enumerate(trials) if each[1].in_function]
    ends = shared(in_functions, quick, jobs, lambda trial: not trial.by_import)
    again = [
        (number, trial)
        for number, trial in enumerate(trials)
        if not trial.in_function or (trial.by_import and ends[number] == "alive")
    ]
    ends |= shared(by_import, again, jobs, lambda trial: True)
    return [ends[number] for number in range(len(trials))]


def shared(
    work: Callable[[Numbered, Noting], None],
    trials: Numbered,
    jobs: int,
    is_last: Callable[[Trial], bool],
) -> dict[int, str]:
    """How each of these ended by its number, worked on in so many children."""
    reading, writing = os.pipe()

    def note(number: int, how: str) -> None:
        os.write(writing, f"{number} {how}\n".encode())

    by_number, shares = dict(trials), [trials[part::jobs] for part in range(jobs)]
    children = [in_child(quiet(partial(work, share, note))) for share in shares]
    os.close(writing)
    ends = {}
    with os.fdopen(reading, encoding="utf-8") as lines:
        for line in lines:
            number, _, how = line.rstrip().partition(" ")
            ends[int(number)] = how
            if how == "alive" and is_last(by_number[int(number)]):
                print(by_number[int(number)].place.said, flush=True)
    for child in children:
        os.waitpid(child, 0)
    if by_number.keys() - ends:
        raise RuntimeError("some places were not tried")
    return ends


def prepare() -> None:
    """Import what every child needs and no change touches."""
    # Compiled modules are kept apart, so that a child reads what another has compiled.
    sys.pycache_prefix, sys.dont_write_bytecode = str(KEPT / "compiled"), False
    os.environ["MUTANTS_OUT"] = str(os.dup(1))
    for name in BELOW:
        importlib.import_module(name)
    changed = tuple(each.replace("/", ".") for each in SOURCES)
    assert not [name for name in sys.modules if name.startswith(changed)]


def main() -> int:
    """The command."""
    given, start = options(), time.monotonic()
    prepare()
    files = chosen_files(given.tests)
    record(files)
    recorded = recorded_of(files)
    print(f"{len(recorded)} tests on record after {time.monotonic() - start:.0f} s", flush=True)
    every = every_place()
    places = chosen(given, every)
    trials = [trial_of(place, recorded) for place in places]
    how = Counter(tried(trials, recorded, files, given.jobs))
    share = 1 - how["alive"] / len(places)
    print(
        f"{len(places)} of {len(every)} places, {share:.1%} noticed, of these {how['too long']} "
        f"by taking too long; {time.monotonic() - start:.0f} s"
    )
    return 0 if share >= LEAST_SHARE else 1


if __name__ == "__main__":
    os.chdir(ROOT)
    with tempfile.TemporaryDirectory(prefix="loombook-mutants-") as folder:
        os.environ |= {"PYTEST_DEBUG_TEMPROOT": folder, "HYPOTHESIS_STORAGE_DIRECTORY": folder}
        os.environ["LOOMBOOK_NO_STORE"] = "1"  # what was found before a change proves nothing
        code = main()
    raise SystemExit(code)

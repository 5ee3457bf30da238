"""Which tests are tried on a change: those that run its line, the cheapest first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import NamedTuple

from mutant_lines import Recorded, readers, run_by_imports, runs
from mutant_places import ROOT, Place, around

FIRST = 12
"""So many of the cheapest tests run first; the others file by file, as their fixtures want it."""
WHOLE = "tests/unit/pipeline/test_frozen_answers.py"
"""What the shipped book answers, then: nothing sees as much in a second."""


class Trial(NamedTuple):
    """A place, the tests that run it from the cheapest on, and how it is changed.

    `in_function`: what holds the place can be given changed code. `by_import`: the tests for which
    an import runs it, so that what it made then is seen only when all is imported anew.
    """

    place: Place
    tests: list[str]
    seconds: float
    in_function: bool
    by_import: list[str]


def trial_of(place: Place, recorded: Recorded) -> Trial:
    """What is to be tried: of what an import runs, also the tests of those who read its names."""
    function, lines, names = around(place)
    file, bits = str(place.file), sum(1 << line for line in lines)
    before = {name for name, (_, ran) in run_by_imports().items() if runs(ran, file, bits)}
    anew = function is None or "" in before
    where, known = readers(names) if anew else ({}, set())
    if function is not None:
        where = where | {file: where.get(file, 0) | bits}
    chosen = {
        test: seconds
        for test, (seconds, ran) in recorded.items()
        if any(runs(ran, each, lines) for each, lines in where.items())
        or any(name in _text(test.split("::")[0]) for name in known)
        or test.split("::")[0] in before
    }
    tests = in_order(chosen, place.module)
    by_import = [test for test in tests if anew or test.split("::")[0] in before]
    return Trial(place, tests, sum(chosen.values()), function is not None, by_import)


@cache
def _text(name: str) -> str:
    return (ROOT / name).read_text("utf-8")


def in_order(costs: dict[str, float], module: str) -> list[str]:
    """The cheapest tests, what the book answers, files that name the module, and the others."""
    cheap = sorted(costs, key=lambda test: costs[test])[:FIRST]
    files: defaultdict[str, list[str]] = defaultdict(list)
    for test in sorted(costs.keys() - set(cheap), key=lambda test: costs[test]):
        files[test.split("::")[0]].append(test)

    def near(name: str) -> tuple[bool, bool, float]:
        names_it = f"{module} import" in _text(name)
        return name != WHOLE, not names_it, sum(costs[test] for test in files[name])

    return cheap + [test for name in sorted(files, key=near) for test in files[name]]


def chosen_files(folders: Iterable[str]) -> list[Path]:
    """The test files of these folders and files."""
    found: list[Path] = []
    for each in folders:
        top = ROOT / each
        found += [top] if top.is_file() else sorted(top.rglob("test_*.py"))
    return found

"""Places of the planner and of the proof changed one at a time: some test has to notice each.

    .venv/bin/python tests/long/mutants.py                      500 places from seed 1
    .venv/bin/python tests/long/mutants.py --places 40 --seed 7 --part 1/2

A place is a comparison, a sign, a figure, an `and` or `or`, a `not` or a condition. Each change is
tried in a child of this process that has imported nothing of ours: the changed module is loaded in
the place of the written one, then the tests that stand nearest to it run until one fails. What no
test noticed is printed as file:line and what was changed; the exit code is 1 under nine in ten.
"""

from __future__ import annotations

import argparse
import ast
import importlib.abc
import importlib.machinery
import os
import random
import signal
import sys
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from types import ModuleType
from typing import NamedTuple

import hypothesis  # noqa: F401 - imported once, for every child
import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCES = ("builder/planning", "builder/proof")
TESTS = ("tests/unit/planning", "tests/unit/proof", "tests/rules", "tests/oracles")
WHOLE = "tests/unit/pipeline/test_frozen_answers.py"
"""What the shipped book answers, run last."""
LONGEST_S = 300
LEAST_SHARE = 0.9

SWAPPED: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip


class Place(NamedTuple):
    """A node of a module that may be changed: the how many-th of a walk through its tree."""

    file: Path
    number: int
    line: int
    what: str

    @property
    def said(self) -> str:
        """Where it is and what became of it."""
        return f"{self.file.relative_to(ROOT)}:{self.line} {self.what}"


def changed(node: ast.AST) -> str | None:
    """Change a node where it stands and say what was done; None for one that is left alone."""
    if isinstance(node, ast.Compare) and type(node.ops[0]) in SWAPPED:
        before = ast.unparse(node)
        node.ops[0] = SWAPPED[type(node.ops[0])]()  # type: ignore[assignment]
        return f"{before} -> {ast.unparse(node)}"
    if isinstance(node, ast.BinOp | ast.BoolOp) and type(node.op) in SWAPPED:
        before = ast.unparse(node)
        node.op = SWAPPED[type(node.op)]()  # type: ignore[assignment]
        return f"{before} -> {ast.unparse(node)}"
    if isinstance(node, ast.If | ast.IfExp):
        before = ast.unparse(node.test)
        node.test = ast.UnaryOp(ast.Not(), node.test)
        return f"if {before} -> if not"
    if isinstance(node, ast.Constant) and type(node.value) is int:
        node.value += 1
        return f"{node.value - 1} -> {node.value}"
    if isinstance(node, ast.Constant) and type(node.value) is float:
        before, node.value = node.value, node.value * 1.1 + 0.01
        return f"{before} -> {node.value}"
    return None


def nodes_of(tree: ast.AST) -> Iterator[ast.AST]:
    """Every node but those of annotations and of what is run for the type checker alone."""
    for name, value in ast.iter_fields(tree):
        if name in ("annotation", "returns", "type_params") or _is_of_types(tree):
            continue
        for node in value if isinstance(value, list) else [value]:
            if isinstance(node, ast.AST):
                yield node
                yield from nodes_of(node)


def _is_of_types(node: ast.AST) -> bool:
    """Whether a node only names types: a word list, a cast, a promise of what an operator takes."""
    if isinstance(node, ast.Subscript):
        return isinstance(node.value, ast.Name) and node.value.id[0].isupper()
    return isinstance(node, ast.Assert)


def every_place() -> list[Place]:
    """All that could be changed, in an order that does not change."""
    found = []
    for folder in SOURCES:
        for file in sorted((ROOT / folder).rglob("*.py")):
            for number, node in enumerate(nodes_of(ast.parse(file.read_text("utf-8")))):
                what = changed(deepcopy(node))
                if what is not None:
                    found.append(Place(file, number, getattr(node, "lineno", 0), what))
    return found


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module with a place changed; every other comes as it is written."""

    def __init__(self, place: Place) -> None:
        self.place = place
        self.name = ".".join(place.file.relative_to(ROOT).with_suffix("").parts)

    def find_spec(
        self, name: str, path: object, target: object = None
    ) -> importlib.machinery.ModuleSpec | None:
        """Return this for the module of the place."""
        if name.removesuffix(".__init__") != self.name.removesuffix(".__init__"):
            return None
        folder = [str(self.place.file.parent)] if self.place.file.stem == "__init__" else None
        spec = importlib.machinery.ModuleSpec(name, self, origin=str(self.place.file))
        spec.submodule_search_locations = folder
        spec.has_location = True
        return spec

    def exec_module(self, module: ModuleType) -> None:
        """Run the changed source."""
        tree = ast.parse(self.place.file.read_text("utf-8"))
        changed(list(nodes_of(tree))[self.place.number])
        code = compile(ast.fix_missing_locations(tree), str(self.place.file), "exec")
        exec(code, module.__dict__)


def tests_for(place: Place) -> list[list[str]]:
    """The test files that name the module, then those that name its folder, then the others."""
    stem, folder = place.file.stem, place.file.parent.name
    groups: list[list[str]] = [[], [], [str(ROOT / WHOLE)]]
    for file in (file for each in TESTS for file in sorted((ROOT / each).rglob("test_*.py"))):
        text = file.read_text("utf-8")
        distance = 0 if f".{stem} import" in text else 1 if f".{folder}" in text else 2
        groups[distance].append(str(file))
    return [group for group in groups if group]


def is_noticed(place: Place) -> bool:
    """Whether a test fails, or nothing can be imported any more, or it takes too long."""
    child = os.fork()
    if child == 0:
        try:
            quiet = os.open(os.devnull, os.O_WRONLY)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            signal.alarm(LONGEST_S)
            sys.meta_path.insert(0, Changed(place))
            sys.dont_write_bytecode = True
            quick = ["-x", "-q", "-p", "no:cacheprovider"]
            failed = any(pytest.main([*quick, *group]) for group in tests_for(place))
        except BaseException:
            os._exit(1)
        os._exit(int(failed))
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0


def main() -> int:
    """The command."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--places", type=int, default=500)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--part", default="1/1", help="such as 1/2")
    given = options.parse_args()
    part, parts = map(int, given.part.split("/"))
    every = every_place()
    chosen = random.Random(given.seed).sample(every, min(given.places, len(every)))[
        part - 1 :: parts
    ]
    missed = []
    for place in chosen:
        if not is_noticed(place):
            missed.append(place)
            print(place.said, flush=True)
    share = 1 - len(missed) / len(chosen)
    print(f"{len(chosen)} of {len(every)} places, {share:.1%} noticed")
    return 0 if share >= LEAST_SHARE else 1


if __name__ == "__main__":
    os.chdir(ROOT)
    raise SystemExit(main())

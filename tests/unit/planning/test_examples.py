"""Every calculation shows an example in its docstring, and the example is true."""

from __future__ import annotations

import ast
import doctest
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest
from builder_code import tree_of

ROOT = Path(__file__).parents[3]
FILES = [*sorted((ROOT / "builder" / "planning").rglob("*.py")), ROOT / "builder" / "units.py"]
FIGURES = {
    *("float", "Volts", "VoltsRms", "Amperes", "Ohms", "Watts", "Decibels", "Hertz"),
    "Milliseconds",
}
GIVEN = FIGURES | {"int", "str", "HouseDefaults", "Conductor", "SupplyPath", "Iterable[Ohms]"}
CHECKS = {"require_positive", "require_not_negative"}
"""They give back what they are given."""


def name_of(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts)


def calculations(path: Path) -> Iterator[ast.FunctionDef]:
    """Public functions that make a figure of figures, house defaults and conductors."""
    for node in tree_of(path).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            given = {ast.unparse(each.annotation) for each in node.args.args if each.annotation}
            made = ast.unparse(node.returns) if node.returns else ""
            if given <= GIVEN and made.removesuffix(" | None") in FIGURES:
                yield node


def test_every_calculation_shows_an_example() -> None:
    found = {node.name: ast.get_docstring(node) or "" for f in FILES for node in calculations(f)}
    assert len(found) >= 40
    assert {name for name, said in found.items() if ">>>" not in said} == CHECKS


@pytest.mark.parametrize("name", [name_of(f) for f in FILES if ">>> " in f.read_text("utf-8")])
def test_the_examples_are_true(name: str) -> None:
    done = doctest.testmod(import_module(name))
    assert done.attempted and not done.failed

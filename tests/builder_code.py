"""The code of the builder as syntax trees, parsed once for all tests of a worker."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

BUILDER = Path(__file__).parents[1] / "builder"


def files() -> list[Path]:
    """Every module of the builder, in order."""
    return sorted(BUILDER.rglob("*.py"))


@cache
def tree_of(path: Path) -> ast.Module:
    """The tree of one module, to be looked at and not changed."""
    return ast.parse(path.read_text("utf-8"))


@cache
def nodes_of(path: Path) -> tuple[ast.AST, ...]:
    """Every node of one module, as `ast.walk` yields them."""
    return tuple(ast.walk(tree_of(path)))


def name_of(path: Path) -> str:
    """A module as a failure names it: `planning/tables.py`."""
    return path.relative_to(BUILDER).as_posix()


def nodes() -> Iterator[tuple[Path, ast.AST]]:
    """Every node of the builder with its module."""
    for path in files():
        for node in nodes_of(path):
            yield path, node

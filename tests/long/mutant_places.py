"""Where a module can be changed in one place, what it then says, and who would have to notice.

A place is a comparison, a sign, a figure, an `and` or `or`, a `not` or a condition. What only names
types or sets the size of a memory is no place: nothing that the code answers hangs on it.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
SOURCES = ("builder/planning", "builder/proof")

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
    def name(self) -> str:
        """The file from the root of the repository."""
        return str(self.file.relative_to(ROOT))

    @property
    def module(self) -> str:
        """What the file is imported as."""
        dotted = ".".join(self.file.relative_to(ROOT).with_suffix("").parts)
        return dotted.removesuffix(".__init__")

    @property
    def said(self) -> str:
        """Where it is and what became of it."""
        return f"{self.name}:{self.line} {self.what}"


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
    """Whether a node names types, promises what an operator takes, or sizes a memory."""
    if isinstance(node, ast.Subscript):
        return isinstance(node.value, ast.Name) and node.value.id[0].isupper()
    if isinstance(node, ast.Call):
        return isinstance(node.func, ast.Name) and node.func.id == "lru_cache"
    return isinstance(node, ast.Assert)


@cache
def tree_of(file: Path) -> ast.Module:
    """The file as it is written."""
    return ast.parse(file.read_text("utf-8"))


def every_place() -> list[Place]:
    """All that could be changed, in an order that does not change."""
    found = []
    for folder in SOURCES:
        for file in sorted((ROOT / folder).rglob("*.py")):
            for number, node in enumerate(nodes_of(tree_of(file))):
                what = changed(deepcopy(node))
                if what is not None:
                    found.append(Place(file, number, getattr(node, "lineno", 0), what))
    return found


def changed_tree(place: Place) -> ast.Module:
    """The module with the place changed."""
    tree = deepcopy(tree_of(place.file))
    changed(list(nodes_of(tree))[place.number])
    return ast.fix_missing_locations(tree)


Function = ast.FunctionDef | ast.AsyncFunctionDef


def around(place: Place) -> tuple[Function | None, set[int], set[str]]:
    """The outermost function whose body holds the place, the lines of its statement, and names.

    Without such a function the place is run by the import, and the names are those that the
    statement gives: who reads them would have to notice.
    """
    tree = tree_of(place.file)
    path = _path_to(tree, list(nodes_of(tree))[place.number]) or []
    function = None
    for outer, inner in pairwise(path):
        if isinstance(outer, Function):
            function = outer if inner in outer.body else None
            break
    statement = next(node for node in reversed(path) if isinstance(node, ast.stmt))
    return function, _own_lines(statement, place.line), _names(path)


def _path_to(tree: ast.AST, wanted: ast.AST) -> list[ast.AST] | None:
    if tree is wanted:
        return [tree]
    for child in ast.iter_child_nodes(tree):
        path = _path_to(child, wanted)
        if path is not None:
            return [tree, *path]
    return None


def _own_lines(statement: ast.stmt, line: int) -> set[int]:
    """The lines of a statement without those of the statements in it."""
    end = statement.end_lineno or statement.lineno
    inner = getattr(statement, "body", None)
    if inner and line < inner[0].lineno:
        end = max(statement.lineno, inner[0].lineno - 1)
    return set(range(statement.lineno, end + 1))


def _names(path: list[ast.AST]) -> set[str]:
    """What the statement of a module that holds the place gives a name to."""
    names: set[str] = set()
    for node in path[1:]:
        if isinstance(node, ast.ClassDef | Function):
            names.add(node.name)
        targets = [node.target] if isinstance(node, ast.AnnAssign) else getattr(node, "targets", [])
        names |= {one.id for each in targets for one in ast.walk(each) if isinstance(one, ast.Name)}
    return names

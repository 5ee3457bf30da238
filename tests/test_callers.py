"""What is written is used: every function has a caller, every optional parameter of one somebody
who passes it, every published value a reader.

A function that tests alone call proves nothing about what people get, and neither do the
published values it is held against.
"""

from __future__ import annotations

import ast
import json
import math
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest
from builder_code import files, nodes, tree_of

ROOT = Path(__file__).parents[1]
SURFACE = (ROOT / "tests" / "unit" / "api_surface.txt").read_text("utf-8")
PUBLIC = set(re.findall(r"^ *(\w+)(?:\(| ->)", SURFACE, re.M))
VECTORS = sorted((ROOT / "tests" / "vectors").glob("*.json"))
TEMPLATES = [
    path for path in (ROOT / "site_templates").rglob("*") if path.suffix in (".html", ".md")
]
CALLED_FROM_OUTSIDE = {
    "do_GET",
    *("list_directory", "log_message", "parse_request", "send_head"),  # http.server
    *("handle_error", "process_request", "process_request_thread", "service_actions"),
    *("get_command", "get_params", "invoke", "make_context"),  # click
    *("dump_bytecode", "get_cache_key", "get_source_checksum", "load_bytecode"),  # jinja2
}
"""Methods that stand in the place of a library's own, which calls them."""

NEVER_PASSED = {
    ("get_cache_key", "filename"): "jinja2 passes it",
    ("line", "source"): "a line of a published source names it; so far all are common practice",
    ("load_text", "source"): "one way to read has to be forced where both are held together",
}
"""Optional parameters that no call passes, each with the reason why it is there."""

Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions() -> Iterator[tuple[Path, Function]]:
    """Every function and method of the builder, but commands, which click calls.

    What is public for programs is called by those: `tests/unit/test_api.py` names and calls it.
    """
    for path, node in nodes():
        if not isinstance(node, Function) or node.name.startswith("__"):
            continue
        if path.parent.name == "api" and node.name in PUBLIC:
            continue
        if not any("command" in ast.unparse(how) for how in node.decorator_list):
            yield path, node


def names_in(code: Iterable[ast.AST]) -> Iterator[str]:
    """The names that a piece of code uses; an import or `__all__` is no use."""
    for inner in code:
        if isinstance(inner, ast.Name):
            yield inner.id
        elif isinstance(inner, ast.Attribute):
            yield inner.attr
        elif isinstance(inner, ast.alias) and inner.asname:
            yield inner.name


def test_every_function_has_a_caller() -> None:
    used = Counter(names_in(node for _, node in nodes()))
    shown = {word for path in TEMPLATES for word in re.findall(r"\w+", path.read_text("utf-8"))}
    idle = [
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
        for path, node in functions()
        if used[node.name] == Counter(names_in(ast.walk(node)))[node.name]  # calls itself at most
        and node.name not in shown | CALLED_FROM_OUTSIDE
    ]
    assert idle == []


def test_what_is_called_from_outside_is_still_there() -> None:
    assert {node.name for _, node in functions()} >= CALLED_FROM_OUTSIDE


def calls() -> dict[str, list[tuple[float, set[str | None]]]]:
    """How each name is called: with how many arguments in order, and with which by name.

    None among the names, and an endless number, stand for what a star passes.
    """
    found = defaultdict(list)
    for _, node in nodes():
        if isinstance(node, ast.Call):
            what, given = node.func, node.args
            if ast.unparse(what) == "partial":
                what, *given = given
            star = any(isinstance(each, ast.Starred) for each in given)
            names = {keyword.arg for keyword in node.keywords}
            found[called(what)].append((math.inf if star else len(given), names))
        for how in getattr(node, "decorator_list", []):
            found[called(how)].append((1, set()))
    return found


def called(what: ast.expr) -> str:
    name = what.id if isinstance(what, ast.Name) else getattr(what, "attr", "")
    return other_names().get(name, name)


@cache
def other_names() -> dict[str, str]:
    """What is called by another name in some module."""
    return {
        ast.unparse(node.targets[0]): node.value.id
        for path in files()
        for node in tree_of(path).body
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Name)
    } | {
        each.asname: each.name
        for _, node in nodes()
        if isinstance(node, ast.ImportFrom)
        for each in node.names
        if each.asname
    }


def optional(function: Function, is_method: bool) -> Iterator[tuple[str, float]]:
    """The optional parameters of a function, each with its place in a call that names none."""
    said = function.args
    inner = is_method and "staticmethod" not in map(ast.unparse, function.decorator_list)
    placed = said.posonlyargs + said.args
    for at in range(len(placed) - len(said.defaults), len(placed)):
        yield placed[at].arg, at - inner
    yield from (
        (each.arg, math.inf)
        for each, default in zip(said.kwonlyargs, said.kw_defaults, strict=True)
        if default is not None
    )


def never_passed() -> Iterator[tuple[str, str]]:
    """Every optional parameter that no call of the builder passes, with its function."""
    passed = calls()
    methods = {id(each) for _, n in nodes() if isinstance(n, ast.ClassDef) for each in n.body}
    for _, function in functions():
        for name, at in optional(function, id(function) in methods):
            if not any(
                count > at or names & {name, None} for count, names in passed[function.name]
            ):
                yield function.name, name


def test_every_optional_parameter_is_passed_by_somebody() -> None:
    assert sorted(never_passed()) == sorted(NEVER_PASSED)


@cache
def texts_of_tests() -> str:
    """All tests but the list that looks at the form of the vectors alone."""
    paths = (path for path in (ROOT / "tests").rglob("*.py") if path.name != "vector_reading.py")
    return "\n".join(path.read_text("utf-8") for path in paths)


@pytest.mark.parametrize("path", VECTORS, ids=lambda path: path.stem)
def test_every_published_value_has_a_reader(path: Path) -> None:
    texts = texts_of_tests()
    data = json.loads(path.read_text("utf-8"))
    groups = [group["name"] for group in data.get("groups", [])]
    assert re.search(rf"\b{path.stem}(\.json)?\"", texts)
    assert [name for name in groups if f'"{name}"' not in texts] == []

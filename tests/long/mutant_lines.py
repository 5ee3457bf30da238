"""Which test runs which line of the code that is changed, recorded once and kept.

Each test is run alone, with nothing left of the one before: fixtures are made anew and what
functions remember is forgotten, so that what it runs is all that it needs. What was recorded is
kept in the temporary folder under the sum of all it depends on; of a changed test file, that file
alone is recorded again.
"""

from __future__ import annotations

import ast
import functools
import gc
import hashlib
import importlib
import marshal
import os
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import pytest
from mutant_places import ROOT, tree_of

TRACED = tuple(f"{ROOT}/builder/{each}/" for each in ("planning", "proof", "rules"))
KEPT = Path(tempfile.gettempdir()) / f"loombook-mutants-{os.getuid()}"
Lines = dict[str, int]
"""File -> its lines as bits: line 3 is bit 3."""
Recorded = dict[str, tuple[float, Lines]]
"""Test -> seconds it took, and what it ran."""


class Tracer:
    """Notes each line of the traced folders that is run while it is on."""

    def __init__(self) -> None:
        self.lines: defaultdict[str, set[int]] = defaultdict(set)
        self._traced: dict[CodeType, bool] = {}

    def __enter__(self) -> Tracer:
        sys.settrace(self._entered)
        return self

    def __exit__(self, *_: object) -> None:
        sys.settrace(None)

    def _entered(self, frame: FrameType, event: str, arg: object) -> Any:
        code = frame.f_code
        traced = self._traced.get(code)
        if traced is None:
            traced = self._traced[code] = code.co_filename.startswith(TRACED)
        if not traced:
            return None
        add = self.lines[code.co_filename].add
        add(frame.f_lineno)

        def line(frame: FrameType, event: str, arg: object) -> Any:
            add(frame.f_lineno)
            return line

        return line

    def taken(self) -> Lines:
        """What was run since the last time."""
        lines = {file: sum(1 << line for line in ran) for file, ran in self.lines.items()}
        self.lines.clear()
        return lines


def forget(memories: Iterable[Any]) -> None:
    """Empty what functions remember."""
    for memory in memories:
        memory.cache_clear()


def memories() -> list[Any]:
    """Every function of the repository that remembers its answers."""
    gc.unfreeze()  # what tests/conftest.py froze is not listed
    found = [each for each in gc.get_objects() if isinstance(each, functools._lru_cache_wrapper)]
    files = (getattr(each.__wrapped__, "__code__", None) for each in found)
    return [
        each
        for each, code in zip(found, files, strict=True)
        if code and code.co_filename.startswith((f"{ROOT}/builder/", f"{ROOT}/tests/"))
    ]


class Recorder:
    """Records the tests of each file that is not yet on record, in a child for each."""

    def __init__(self) -> None:
        self.tracer = Tracer()
        self.failed: list[str] = []
        self.imports: Recorded = {}

    def import_all(self) -> None:
        """Note what the modules of the traced folders run when they are imported."""
        for top in TRACED:
            for file in sorted(Path(top).rglob("*.py")):
                name = ".".join(file.relative_to(ROOT).with_suffix("").parts)
                importlib.import_module(name.removesuffix(".__init__"))
        self.imports[""] = (0.0, self.tracer.taken())

    @pytest.hookimpl(hookwrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Iterator[None]:
        """Note what is run while the tests of a file are found."""
        yield
        if isinstance(collector, pytest.Module):
            name = collector.nodeid
            self.imports[name] = (0.0, self.tracer.taken())

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run them, and keep what the imports ran as well."""
        sys.settrace(None)
        files: defaultdict[Path, list[pytest.Item]] = defaultdict(list)
        for item in session.items:
            files[item.path].append(item)
        keep(place_of(Path("imports")), self.imports)
        children: list[int] = []
        for file, items in files.items():
            if not place_of(file).exists():
                while len(children) > 1:
                    os.waitpid(children.pop(0), 0)
                children.append(in_child(lambda file=file, items=items: self._record(file, items)))
        for child in children:
            os.waitpid(child, 0)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Note what fails though nothing is changed."""
        if report.failed:
            self.failed.append(report.nodeid)

    def _record(self, file: Path, items: list[pytest.Item]) -> None:
        remembered = memories()
        recorded: Recorded = {}
        for item in items:
            forget(remembered)
            start = time.process_time()
            with self.tracer:
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
            recorded[item.nodeid] = (time.process_time() - start, self.tracer.taken())
        if self.failed:
            os.write(int(os.environ["MUTANTS_OUT"]), f"fail already: {self.failed}\n".encode())
        else:
            keep(place_of(file), recorded)


def in_child(work: Any) -> int:
    """Do the work in a child that ends with it; its number."""
    child = os.fork()
    if child:
        return child
    try:
        work()
    except BaseException as error:
        os.write(int(os.environ["MUTANTS_OUT"]), f"{error!r}\n".encode())
        os._exit(3)
    os._exit(0)


def keep(place: Path, recorded: Recorded) -> None:
    """Write what was recorded."""
    place.parent.mkdir(parents=True, exist_ok=True)
    half = place.with_suffix(f".{os.getpid()}")
    half.write_bytes(marshal.dumps(recorded))
    half.replace(place)


def place_of(file: Path) -> Path:
    """Where what the tests of a file run is kept."""
    own = file.read_bytes() if file.is_file() else b""
    return KEPT / f"{file.stem}-{hashlib.sha256(_all_else().encode() + own).hexdigest()[:16]}"


@cache
def _all_else() -> str:
    """The sum of all that any test may depend on, but for test files."""
    digest = hashlib.sha256()
    for folder in ("builder", "pinouts", "schema", "tests"):
        for file in sorted((ROOT / folder).rglob("*.*")):
            own = file.name.startswith("test_") or file.parent.name in ("long", "__pycache__")
            if not own and file.is_file():
                digest.update(str(file.relative_to(ROOT)).encode() + file.read_bytes())
    return digest.hexdigest()


def recorded_of(files: Iterable[Path]) -> Recorded:
    """What is on record of the tests of these files."""
    found: Recorded = {}
    for file in files:
        place = place_of(file)
        found |= marshal.loads(place.read_bytes()) if place.exists() else {}
    return found


@cache
def run_by_imports() -> Recorded:
    """What was run before the first test: under "" by our modules, else by a file of tests."""
    return recorded_of([Path("imports")])


def runs(ran: Lines, file: str, lines: int) -> bool:
    """Whether one of the lines of the file was run."""
    return bool(ran.get(file, 0) & lines)


def readers(names: set[str]) -> tuple[dict[str, int], set[str]]:
    """Where functions read one of these names, and the names that hang on them at import."""
    found: dict[str, int] = {}
    known: set[str] = set()
    while names - known:
        name = min(names - known)
        known.add(name)
        for file, line, given in mentions().get(name, ()):
            found[file] = found.get(file, 0) | 1 << line
            names = names | given
    return found, known


@cache
def mentions() -> dict[str, list[tuple[str, int, frozenset[str]]]]:
    """Name -> each place that reads it: file, line, and which names hang on it when imported."""
    found: defaultdict[str, list[tuple[str, int, frozenset[str]]]] = defaultdict(list)
    for file in sorted(each for top in TRACED for each in Path(top).rglob("*.py")):
        for statement in tree_of(file).body:
            given = frozenset(_given(statement))
            for node in ast.walk(statement):
                if name := _name_of(node):
                    found[name].append((str(file), node.lineno, given))
    return found


def _name_of(node: ast.AST) -> str:
    if isinstance(node, ast.Name):
        return node.id if isinstance(node.ctx, ast.Load) else ""
    return node.attr if isinstance(node, ast.Attribute) else ""


def _given(statement: ast.stmt) -> Iterator[str]:
    """The names that hang on what a statement reads when it is imported."""
    if isinstance(statement, ast.ClassDef):
        yield statement.name
    if isinstance(statement, ast.Assign | ast.AnnAssign):
        for node in ast.walk(statement):
            if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
                yield node.id

"""Trying a change: the tests that run the changed line, in a child, until one of them fails.

A change within a function is made in a child of a process that has imported everything and found
every test: the function gets the changed code, and nothing is loaded. A change that is run by the
import of its module is tried in a child that has imported nothing of it. No file is written.
"""

from __future__ import annotations

import gc
import importlib
import importlib.abc
import importlib.machinery
import os
import resource
import signal
import sys
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable
from types import CodeType, FunctionType, ModuleType
from typing import Any

import hypothesis
import pytest
from mutant_lines import forget, memories
from mutant_places import ROOT, Place, changed_tree
from mutant_tests import Trial

QUIET = (
    "-q", "--tb=no", "--assert=plain", "--hypothesis-seed=0", "-p", "no:cacheprovider",
    "-p", "no:xdist",
)  # fmt: skip
OWN_FAULT = 99
"""The exit code of a child that could not make its change."""
LONGEST_BYTES = 4 << 30
Memory = defaultdict[tuple[str, str, int], list[FunctionType]]
"""Every function of ours by file, name and first line."""


class Stops:
    """Ends the process at the first test that fails."""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """End it, with the exit code of what was noticed."""
        if report.failed:
            os._exit(1)

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Let nothing be checked in further processes."""
        from builder.pipeline.checking import workers

        workers.WORTH_FORKING = sys.maxsize


class Bench(Stops):
    """Tries changes of functions, once every test is found."""

    def __init__(
        self, trials: Iterable[tuple[int, Trial]], said: Callable[[int, str], None]
    ) -> None:
        self.trials, self.said = trials, said

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Try each, in a child of its own."""
        items = {item.nodeid: item for item in session.items}
        functions = _functions()
        remembered = memories()
        gc.collect()
        gc.freeze()
        for number, trial in self.trials:
            if not trial.tests:
                self.said(number, "alive")
                continue

            def work(trial: Trial = trial) -> None:
                replace_code(trial.place, functions)
                forget(remembered)
                run_items([items[test] for test in trial.tests])

            self.said(number, ended(work, trial.seconds))
        return True


def run_items(items: list[pytest.Item]) -> None:
    """Run these tests in this order."""
    for item, following in zip(items, [*items[1:], None], strict=True):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)


class Ordered(Stops):
    """Runs chosen tests in the order given, then those that only the changed code has."""

    def __init__(self, tests: list[str], every: Collection[str]) -> None:
        self.tests, self.every = tests, every

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run them."""
        items = {item.nodeid: item for item in session.items}
        known = [items[test] for test in self.tests if test in items]
        new = [item for item in session.items if item.nodeid not in self.every]
        run_items(known + new)
        return True


def try_by_import(trial: Trial, every: Collection[str]) -> str:
    """Load the changed module in a child that has not loaded it, and run the tests."""

    def work() -> None:
        sys.meta_path.insert(0, Changed(trial.place))
        files = dict.fromkeys(test.split("::")[0] for test in trial.by_import)
        code = pytest_main(list(files), Ordered(trial.by_import, every))
        os._exit(OWN_FAULT if code == pytest.ExitCode.NO_TESTS_COLLECTED else code)

    return ended(work, trial.seconds)


def pytest_main(files: list[str], plugin: object) -> int:
    """Run pytest in this process; what fails is not made smaller, and nothing is kept."""
    hypothesis.settings.register_profile(
        "mutants",
        database=None,
        phases=[hypothesis.Phase.explicit, hypothesis.Phase.generate],
        suppress_health_check=list(hypothesis.HealthCheck),
    )
    hypothesis.settings.load_profile("mutants")
    return int(pytest.main([*QUIET, *files], [plugin]))


def ended(work: Any, seconds: float) -> str:
    """How a child that does the work ended: alive | noticed | too long.

    Raises:
        RuntimeError: it never came to trying.
    """
    child = os.fork()
    if child == 0:
        try:
            for stream in (1, 2):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream)
            longest = 20 + 4 * seconds
            signal.signal(signal.SIGPROF, signal.SIG_DFL)
            signal.setitimer(signal.ITIMER_PROF, longest)
            signal.alarm(int(10 * longest))
            resource.setrlimit(resource.RLIMIT_AS, (LONGEST_BYTES, LONGEST_BYTES))
            work()
        except BaseException:
            os._exit(1)
        os._exit(0)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    if code == OWN_FAULT:
        raise RuntimeError("the change could not be made")
    return "alive" if code == 0 else "noticed" if code > 0 else "too long"


def _functions() -> Memory:
    found: Memory = defaultdict(list)
    gc.unfreeze()  # what a collector no longer looks at is not among its objects
    for each in gc.get_objects():
        if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(f"{ROOT}/b"):
            found[_key(each.__code__)].append(each)
    return found


def _key(code: CodeType) -> tuple[str, str, int]:
    return code.co_filename, code.co_qualname, code.co_firstlineno


def replace_code(place: Place, functions: Memory) -> None:
    """Give the function that holds the place its changed code, wherever it is already used."""
    file = str(place.file)
    if place.module not in sys.modules:
        importlib.import_module(place.module)
        functions = _functions()
    old = compile(place.file.read_text("utf-8"), file, "exec", dont_inherit=True)
    new = compile(changed_tree(place), file, "exec", dont_inherit=True)
    for before, after in zip(_codes(old), _codes(new), strict=True):
        if before != after:
            if not functions[_key(before)]:
                os._exit(OWN_FAULT)
            for function in functions[_key(before)]:
                function.__code__ = after


def _codes(module: CodeType) -> list[CodeType]:
    """The code of every function that stands in a module or in a class of it."""
    found = []
    for inner in module.co_consts:
        if isinstance(inner, CodeType):
            # A class has no fast locals; what stands in it is looked at on its own.
            is_function = bool(inner.co_flags & 0x2)
            found += [inner] if is_function else _codes(inner)
    return found


class Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module with a place changed; every other comes as it is written."""

    def __init__(self, place: Place) -> None:
        self.place = place

    def find_spec(
        self, name: str, path: object, target: object = None
    ) -> importlib.machinery.ModuleSpec | None:
        """Return this for the module of the place."""
        if name != self.place.module:
            return None
        folder = [str(self.place.file.parent)] if self.place.file.stem == "__init__" else None
        spec = importlib.machinery.ModuleSpec(name, self, origin=str(self.place.file))
        spec.submodule_search_locations = folder
        spec.has_location = True
        return spec

    def exec_module(self, module: ModuleType) -> None:
        """Run the changed source."""
        code = compile(changed_tree(self.place), str(self.place.file), "exec", dont_inherit=True)
        exec(code, module.__dict__)

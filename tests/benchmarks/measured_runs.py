"""A command run once: how long it took, and what memory it and its processes had at most."""

from __future__ import annotations

import os
import subprocess
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

LOOKS_EVERY_S = 0.1
"""How often the memory of all processes is added up: a peak between two looks is missed."""
_WAIT_S = 0.005
"""How often it is asked whether the command has ended."""


class Ran(NamedTuple):
    """What a command took, the last line that it printed, its exit code, and all that it printed.

    `largest_mb` is the most that one process had, as the system noted; `together_mb` the most that
    all had at once, what they share counted once.
    """

    seconds: float
    largest_mb: float
    together_mb: float
    said: str
    code: int = 0
    output: str = ""


def ran(*words: str | Path, cwd: Path | None = None) -> Ran:
    """Run a command; whatever it ends with is its answer.

    Who calls this should be small: the system counts what a process had before it became the
    command, which is what its caller has.
    """
    with tempfile.TemporaryFile() as out:
        begun = time.perf_counter()
        child = subprocess.Popen(
            [str(word) for word in words], stdout=out, stderr=subprocess.STDOUT, cwd=cwd
        )
        together, largest = _watched(child)
        seconds = time.perf_counter() - begun
        out.seek(0)
        output = out.read().decode("utf-8", "replace")
        lines = output.strip().splitlines()
    return Ran(seconds, largest, together, lines[-1] if lines else "", child.returncode, output)


def least_of(runs: Sequence[Ran]) -> Ran:
    """The quickest of several: other work on the machine only adds."""
    return min(runs, key=lambda run: run.seconds)


def _watched(child: subprocess.Popen[bytes]) -> tuple[float, float]:
    """Wait for a process; the most that all of its tree had, and that one of them had. [MB]"""
    together = 0.0
    looked = -LOOKS_EVERY_S
    while True:
        ended, status, used = os.wait4(child.pid, os.WNOHANG)
        if ended:
            child.returncode = os.waitstatus_to_exitcode(status)
            largest = used.ru_maxrss / 1000
            return max(together, largest), largest
        if time.perf_counter() - looked >= LOOKS_EVERY_S:
            together = max(together, sum(_shared_out_kb(pid) for pid in _tree(child.pid)) / 1000)
            looked = time.perf_counter()
        time.sleep(_WAIT_S)


def _tree(pid: int) -> Iterator[int]:
    yield pid
    for tasks in Path(f"/proc/{pid}/task").glob("*/children"):
        try:
            children = tasks.read_text().split()
        except OSError:
            continue  # it ended meanwhile
        for each in children:
            yield from _tree(int(each))


def _shared_out_kb(pid: int) -> int:
    """What a process has, a page that several share counted as their part of it. [kB]"""
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in lines if line.startswith("Pss:")), 0)

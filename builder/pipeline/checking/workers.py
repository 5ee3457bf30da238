"""The same work over many files, in as many processes as there are cores.

Work is forked, so that the shelf and the shell travel for nothing; results must be small.
Where a platform cannot fork, or there is little to do, everything runs in this process.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from functools import partial
from threading import Thread
from typing import Any, TypeVar

Progress = Callable[[int, int], None]
"""Told how many are done, and of how many."""
Item = TypeVar("Item")
Result = TypeVar("Result")

WORTH_FORKING = 48  # vehicles; under this, starting processes costs more than it saves
CHUNK = 16
_LOOKS_EVERY_S = 0.25

_work: Callable[[object], object] | None = None
_items: Sequence[object] = ()


class WorkerEndedError(OSError):
    """A process that worked for this one was ended from outside; what it had is lost."""

    def __init__(self) -> None:
        super().__init__(
            "a working process was ended from outside, as a system short of memory does; "
            "nothing was written. Free some memory, then run the same command again"
        )


def map_files(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    progress: Progress = lambda done, total: None,
    effort: int = 1,
) -> Iterator[Result]:
    """Yield `work(item)` for each item, in order; `progress(done, total)` after each.

    `effort` says how many vehicles one item takes the time of, as far as anybody knows.

    The cyclic collector is off meanwhile: records hold no cycles, and looking for them costs
    about a millisecond a file.

    Raises:
        WorkerEndedError: the system ended one of the processes.
    """
    processes = os.cpu_count() or 1
    can_fork = "fork" in multiprocessing.get_all_start_methods()
    collecting = gc.isenabled()
    gc.disable()
    try:
        alone = processes == 1 or effort * len(items) < WORTH_FORKING or not can_fork
        results = (
            iter(map(work, items))
            if alone
            else _forked(work, items, processes, max(1, CHUNK // effort))
        )
        for done, result in enumerate(results, start=1):
            progress(done, len(items))
            yield result
    finally:
        if collecting:
            gc.enable()


def _forked(
    work: Callable[[Item], Result], items: Sequence[Item], processes: int, chunk: int
) -> Iterator[Result]:
    # Function and items are handed over by fork, not by pickling: the function may close over
    # anything, and the bytes of a record travel for nothing.
    global _work, _items
    _work, _items = work, items  # type: ignore[assignment]
    gc.freeze()
    forked = multiprocessing.get_context("fork")
    pool = ProcessPoolExecutor(processes, forked, partial(_end_with, os.getpid()))
    try:
        with _deaf_to_ctrl_c():
            results = pool.map(_run, range(len(items)), chunksize=chunk)
        yield from results
    except BrokenProcessPool as error:
        raise WorkerEndedError from error
    except KeyboardInterrupt:
        for process in multiprocessing.active_children():
            process.terminate()  # nobody waits for what they were at
        raise
    finally:
        pool.shutdown(cancel_futures=True)
        gc.unfreeze()


@contextmanager
def _deaf_to_ctrl_c() -> Iterator[None]:
    """Let Ctrl-C wait: here for the end of the block, in what is forked until it is ready."""
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def _end_with(parent: int) -> None:
    """Watch, in a worker, for the end of the process it works for, and end with it.

    Ctrl-C is told to every process of a terminal: a worker ends of it and says nothing.

    A killed build would otherwise leave its workers waiting for ever, holding what it worked in.
    """

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(_LOOKS_EVERY_S)
        os._exit(1)

    signal.signal(signal.SIGINT, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    Thread(target=watch, daemon=True).start()


def _run(number: int) -> Any:
    assert _work is not None
    return _work(_items[number])

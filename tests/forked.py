"""A command in a child of this process: its own limits, output and death, but no modules to load.

A new interpreter loads modules for longer than most commands work, so that a test which needs a
process of its own, and not a fresh one, forks it.
"""

from __future__ import annotations

import io
import os
import selectors
import signal
import subprocess
import sys
import time
import traceback
from collections.abc import Callable
from contextlib import suppress

from builder.cli import main


def nothing() -> None:
    """Do nothing."""


def start(work: Callable[[], object], out: int, err: int) -> int:
    """Do the work in a child that writes to these two; return its number.

    The child leads a process group of its own, reads nothing, and hears Ctrl-C whatever these tests
    were started by: what a shell has in the background ignores it. Its exit code is that of an
    interpreter: what `sys.exit` was given, 1 after an error, which is printed.
    """
    child = os.fork()
    if child:
        return child
    code = 1
    try:
        os.setsid()
        signal.signal(signal.SIGINT, signal.default_int_handler)
        for number, place in enumerate((os.open(os.devnull, os.O_RDONLY), out, err)):
            os.dup2(place, number)
        sys.stdin = io.TextIOWrapper(io.FileIO(0, closefd=False))
        sys.stdout, sys.stderr = (
            io.TextIOWrapper(io.FileIO(n, "w", closefd=False), "utf-8", line_buffering=n == 2)
            for n in (1, 2)
        )
        code = _exit_code(work)
    finally:
        os._exit(code)


def _exit_code(work: Callable[[], object]) -> int:
    try:
        work()
        code: object = None
    except SystemExit as end:
        code = end.code
    except BaseException:
        traceback.print_exc()
        code = 1
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError):
            stream.flush()
    return code if isinstance(code, int) else int(code is not None)


def command(
    *arguments: object, before: Callable[[], None] = nothing, timeout_s: float = 60
) -> subprocess.CompletedProcess[str]:
    """Run the command in a child and return what came of it; `before` is done there first.

    Raises:
        subprocess.TimeoutExpired: it took longer; it is ended.
    """
    words = [str(argument) for argument in arguments]

    def work() -> None:
        before()
        main(words)

    ends = os.pipe(), os.pipe()
    child = start(work, ends[0][1], ends[1][1])
    for _, writing in ends:
        os.close(writing)
    try:
        out, err = _read([reading for reading, _ in ends], time.monotonic() + timeout_s)
    except TimeoutError:
        with suppress(ProcessLookupError):
            os.killpg(child, signal.SIGKILL)
        raise subprocess.TimeoutExpired(words, timeout_s) from None
    finally:
        status = os.waitpid(child, 0)[1]
        for reading, _ in ends:
            os.close(reading)
    code = os.waitstatus_to_exitcode(status)
    return subprocess.CompletedProcess(words, code, out, err)


def _read(places: list[int], until: float) -> list[str]:
    """Everything that comes from these, read side by side until each is closed."""
    found = dict.fromkeys(places, b"")
    with selectors.DefaultSelector() as waiting:
        for place in places:
            waiting.register(place, selectors.EVENT_READ)
        while waiting.get_map():
            ready = waiting.select(max(0, until - time.monotonic()))
            if not ready:
                raise TimeoutError
            for key, _ in ready:
                chunk = os.read(key.fd, 1 << 16)
                found[key.fd] += chunk
                if not chunk:
                    waiting.unregister(key.fd)
    return [found[place].decode("utf-8") for place in places]

"""Stopping a piece of work before any of its system calls, by an error or by SIGKILL."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from typing import Any
from unittest import mock

STEPS = ("open", "write", "fsync", "close", "replace", "link", "unlink", "chmod", "mkdir")


def stopped_at(number: int, stop: Callable[[], None], steps: tuple[str, ...]) -> Any:
    """Patches of the system calls that stop before the call of that number, in the order made.

    A write that is stopped has written half of what it was given.
    """
    count = 0

    def wrapped(name: str) -> Callable[..., object]:
        real = getattr(os, name)

        def call(*args: Any, **options: Any) -> object:
            nonlocal count
            count += 1
            if count == number:
                if name == "write":
                    real(args[0], args[1][: len(args[1]) // 2])
                stop()
            return real(*args, **options)

        return call

    return mock.patch.multiple(os, **{name: wrapped(name) for name in steps})


def killed_at(number: int, work: Callable[[], object], steps: tuple[str, ...] = STEPS) -> bool:
    """Do the work in a child that is killed at its n-th system call; whether it was."""
    child = os.fork()
    if child == 0:
        try:
            with stopped_at(number, lambda: os.kill(os.getpid(), signal.SIGKILL), steps):
                work()
        finally:
            os._exit(0)
    return os.WIFSIGNALED(os.waitpid(child, 0)[1])

"""How a command ends: what a script may rely on."""

from __future__ import annotations

import signal
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final

import click

if TYPE_CHECKING:
    from builder.findings import Finding

REFUSED: Final = 1
"""Refused, or nothing found: nothing was written. Of `check`: something is to be mended."""
WRITTEN_WITH_FINDINGS: Final = 3
"""What was asked for is written, and the check has something to mend since, or still."""
STOPPED: Final = 130
"""Ctrl-C, as shells count it: 128, and the number of the signal."""


def end_with(findings: Iterable[Finding], written: bool) -> None:
    """Return where no finding fails the check; else exit, and say by the code what was written."""
    if any(finding.fails_check for finding in findings):
        raise SystemExit(WRITTEN_WITH_FINDINGS if written else REFUSED)


def is_stopped(error: BaseException | None) -> bool:
    """Whether Ctrl-C is behind an error: at a prompt it comes as the end of input does."""
    while error is not None and not isinstance(error, KeyboardInterrupt):
        error = error.__cause__ or error.__context__
    return error is not None


@contextmanager
def stopping() -> Iterator[None]:
    """Do the block; Ctrl-C, at a prompt too, ends it with the exit code that shells know."""
    try:
        yield
    except (KeyboardInterrupt, click.Abort) as error:
        if not is_stopped(error):
            raise
        click.echo("\nstopped", err=True)
        raise SystemExit(STOPPED) from error


@contextmanager
def until_end_of_input() -> Iterator[None]:
    """Ask until the input ends (Ctrl-D), which ends the block and nothing else; Ctrl-C goes on."""
    try:
        yield
    except (click.Abort, EOFError) as error:
        if is_stopped(error):
            raise


def stop_now() -> None:
    """End a process that Ctrl-C has stopped; another Ctrl-C while it ends changes nothing."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    raise SystemExit(STOPPED)

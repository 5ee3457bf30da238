"""What a disk refused, as a sentence: a command never ends in a traceback for it."""

from __future__ import annotations

import errno
import os
from collections.abc import Mapping
from typing import Any

import click

from builder.cli.exit_codes import stopping
from builder.saved_meanwhile import SavedMeanwhileError

_FULL = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is used up",
    errno.EFBIG: "the file would be larger than is allowed here",
}
_OTHERS = {
    errno.EROFS: "the disk can only be read",
    errno.EACCES: "this user may not do that",
    errno.EPERM: "this user may not do that",
    errno.EIO: "the disk does not answer as it should",
}
_STAYS = "nothing is left half written, and what was there stays"


def disk_sentence(error: OSError) -> str:
    """Return what a disk refused: the file, the reason, and for a full disk what to do."""
    if error.errno is None:  # one of our own, which is a sentence already
        return str(error)
    reason = _FULL.get(error.errno) or _OTHERS.get(error.errno) or _own_words(error.errno, error)
    told = f"{os.fsdecode(error.filename)}: {reason}" if error.filename else reason
    if error.errno in _FULL:
        return f"{told}; {_STAYS}. Make room, then run the same command again"
    return told


def _own_words(number: int, error: OSError) -> str:
    """What the error says, in words of ours or of the system."""
    says = os.strerror(number)
    return says.lower() if error.strerror in (None, says) else str(error.strerror)


_NOW_CALLED = {
    "fix": "mend", "format": "tidy", "rule": "why", "explain": "why", "wanted": "next",
}  # fmt: skip
"""Commands by the names they had: a script of a shop goes on, and is told the new one."""


def now_called(name: str, names: Mapping[str, str], before: str = "loombook") -> str:
    """Return the name that a command has today, and say so; `before` is what stands before it."""
    new = names.get(name)
    if new is not None:
        click.echo(f"{before} {name} is called {before} {new} now", err=True)
    return new or name


class SentenceGroup(click.Group):
    """Commands of which none ends in a traceback because of a disk, or of Ctrl-C."""

    def get_command(self, context: click.Context, name: str) -> click.Command | None:
        """Return the command of a name, old names too; none of those is listed or completed."""
        return super().get_command(context, now_called(name, _NOW_CALLED))

    def make_context(self, *given: Any, **said: Any) -> click.Context:
        """Read what was typed; Ctrl-C ends it with its own exit code."""
        with stopping():
            return super().make_context(*given, **said)

    def invoke(self, context: click.Context) -> Any:
        """Run the command; exit 1 with a sentence when a file cannot be read or written."""
        try:
            with stopping():
                return super().invoke(context)
        except OSError as error:
            if error.errno == errno.EPIPE:  # whoever read the output has gone; click knows
                raise
            raise click.ClickException(disk_sentence(error)) from error
        except SavedMeanwhileError as error:
            raise click.ClickException(f"{error}: run the same command again") from error

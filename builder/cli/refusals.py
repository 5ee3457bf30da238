"""How a command ends that was asked of a record which it cannot answer from."""

from __future__ import annotations

import click

from builder.pipeline.answers.answering import RefusedRecordError


def no_answer(error: Exception, more: str = "") -> click.ClickException:
    """Return what ends it: exit code 1 where the record is there and a finding forbids its use,
    which is the file's fault; 2 where what was typed names nothing, and `more` says what to type.
    """
    if isinstance(error, RefusedRecordError):
        return click.ClickException(str(error))
    return click.UsageError(f"{error}{more}")

"""`loombook sign`."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from builder.book import shown_path
from builder.cli.books import opened_to_write
from builder.cli.old_names import called_now
from builder.cli.refusals import no_answer
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.changing import signing
from builder.pipeline.changing.signing import CannotSignError
from builder.pipeline.checking.ssh_keygen import NoSshKeygenError


def sign(vehicle: str, visits: Sequence[str], key: Path, book: Path | None) -> None:
    """Sign visits, each in a file beside the record."""
    whole = opened_to_write(book)
    try:
        name = called_now(whole, vehicle, "vehicle")
        wanted = [signing.unsigned_visit(whole, name, visit) for visit in visits]
        for each in wanted:
            signing.sign(whole, each, key)
            click.echo(f"{shown_path(each.place)} is written: signed by {each.handle}")
    except (NoSuchRecordError, CannotSignError, NoSshKeygenError, FileExistsError) as error:
        raise no_answer(error) from error

"""What can be asked of `serve`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import (
    book_argument,
    book_option,
    need_extra,
    no_store_option,
    one_book,
    public_option,
)


@click.command()
@book_argument
@book_option
@click.option(
    "--port",
    default=8765,
    show_default=True,
    type=click.IntRange(0, 65535),
    help="Where to listen on this machine; 0 takes any free port.",
)
@public_option
@no_store_option
def serve(named: Path | None, book: Path | None, port: int, public: bool, no_store: bool) -> None:
    """Build the site, show it on this machine, and build again when a record changes.

    A change of the book's settings counts too. Only this machine can see the site. A record that
    does not pass is printed, and its pages say so until it is mended; so do plans and jobs made
    with it. The rest of the book stays up.

    The site is kept in the folder .loombook of the book, so that the next start makes only what is
    another by then. Of two at once the second makes one for itself, gone when it ends.
    """
    need_extra("site")
    from builder.cli import serving

    serving.serve(one_book(named, book), port, public, not no_store)

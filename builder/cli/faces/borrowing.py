"""What can be asked of `books`."""

from __future__ import annotations

from pathlib import Path

import click

from builder.cli.faces.options import book_option


@click.group()
def books() -> None:
    """Build on books of others: fetched by git, each held to one commit.

    What counts stands in books.lock beside the book's settings. Fetched once, a book is read
    without a network; its records are nobody's here to change, and a record of your own stands in
    for one of them when it says so (replaces).

    \b
    loombook books add https://forge.example/coast/book.git --folder pinouts
    loombook books fetch
    loombook books update coast
    loombook books update coast --take
    """


@books.command()
@click.argument("address")
@click.option("--name", help="What to call it here.  [default: of the address]")
@click.option("--folder", help="Where in it the records stand.  [default: its top]")
@click.option("--branch", help="Which branch to look at.  [default: the one it opens with]")
@book_option
def add(
    address: str, name: str | None, folder: str | None, branch: str | None, book: Path | None
) -> None:
    """Fetch a book, take it in at its newest commit, and write it into books.lock.

    ADDRESS is an https or ssh address, or a path that begins with /, ./ or ../ and counts from
    the book's folder.
    """
    from builder.cli import borrowing

    borrowing.add(address, name, folder, branch, book)


@books.command()
@book_option
def fetch(book: Path | None) -> None:
    """Bring every book of books.lock to this machine, at the commit that stands there.

    What is here already is left alone, and nothing is asked of the network for it.
    """
    from builder.cli import borrowing

    borrowing.fetch(book)


@books.command()
@click.argument("name", required=False)
@click.option("--take", is_flag=True, help="Take it: write the new commit into books.lock.")
@book_option
def update(name: str | None, take: bool, book: Path | None) -> None:
    """Say what the newest commit of a borrowed book, or of each, changes for your own jobs.

    Nothing is taken without --take. The exit code is 1 when something would change.
    """
    from builder.cli import borrowing

    borrowing.update(name, take, book)


@books.command("list")
@book_option
def list_books(book: Path | None) -> None:
    """List the borrowed books: from where, at which commit, and whether they are here."""
    from builder.cli import borrowing

    borrowing.listing(book)

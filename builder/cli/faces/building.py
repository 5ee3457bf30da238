"""What can be asked of `build`."""

from __future__ import annotations

import re
from pathlib import Path

import click

from builder.cli.faces.options import (
    as_of_option,
    book_argument,
    book_option,
    need_extra,
    no_store_option,
    one_book,
    public_option,
)

# As the schema of a book's settings says it.
SITE_ADDRESS = re.compile(r"https://[A-Za-z0-9.-]+(:[0-9]+)?(/[A-Za-z0-9._~/-]*)?")


def _https_only(context: click.Context, option: click.Parameter, given: str | None) -> str | None:
    if given is not None and not SITE_ADDRESS.fullmatch(given):
        raise click.BadParameter(
            "an address such as https://pins.example/book/ is needed, https and without ? or #"
        )
    return given


@click.command()
@book_argument
@book_option
@click.option(
    "--output",
    "-o",
    type=click.Path(path_type=Path),
    default=Path("site"),
    show_default=True,
    help="Where the site goes, through a link too. Swapped in whole; a folder that is no site is"
    " never touched.",
)
@click.option(
    "--site-address",
    metavar="URL",
    callback=_https_only,
    help="Where the site will stand (https); printed pages then carry a code that leads there."
    "  [default: site_address of the settings]",
)
@click.option(
    "--zip",
    "archive",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Also write the site as one zip, for a stick; the same site gives the same bytes.",
)
@public_option
@as_of_option
@no_store_option
def build(
    named: Path | None,
    book: Path | None,
    output: Path,
    site_address: str | None,
    archive: Path | None,
    public: bool,
    as_of: str,
    no_store: bool,
) -> None:
    """Check the records and build the reference site from them.

    The site is plain files: open index.html from a stick, or put the folder on any web server.
    When a stop or fix is left, nothing is written and the exit code is 1.
    Files in which nothing changed stay as they are, with the time they were written.

    \b
    loombook build
    loombook build my-book --output /var/www/pins
    loombook build my-book --public
    loombook build --zip stick.zip
    """
    need_extra("site")
    from builder.cli import building
    from builder.cli.books import Looking

    how = Looking(public, as_of, not no_store)
    building.build(one_book(named, book), output, site_address, archive, how)

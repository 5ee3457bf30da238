"""`loombook build` and `serve`."""

from __future__ import annotations

import tempfile
import time
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread

import click

from builder.book import Book
from builder.cli.books import book_argument, opened, progress
from builder.pipeline.building import BuiltSite, build_site
from builder.pipeline.checking import CheckedBook, check_book
from builder.reporting import finding_text, summary


@click.command()
@book_argument
@click.option(
    "--output",
    "-o",
    type=click.Path(path_type=Path),
    default=Path("site"),
    show_default=True,
    help="Where the site goes. Swapped in whole; a folder that is no site is never touched.",
)
def build(book: Path | None, output: Path) -> None:
    """Check the records and build the reference site from them.

    The site is plain files: open index.html from a stick, or put the folder on any web server.
    When a stop or fix is left, nothing is written and the exit code is 1.

    \b
    loombook build
    loombook build my-book --output /var/www/pins
    """
    checked = check_book(opened(book), progress("checking"))
    _refuse(checked)
    try:
        built = build_site(checked, output, progress("building"))
    except FileExistsError as error:
        raise click.UsageError(str(error)) from error
    _report(built, output)


def _refuse(checked: CheckedBook) -> None:
    """Print what stands in the way of a build and exit 1, if anything does."""
    failing = [finding for finding in checked.findings if finding.fails_check]
    for finding in failing:
        click.echo(finding_text(finding), err=True)
    if failing:
        click.echo(summary(checked.findings, checked.records), err=True)
        raise SystemExit(1)


def _report(built: BuiltSite, output: Path) -> None:
    for problem in built.broken_links:
        click.echo(problem, err=True)
    click.echo(
        f"{built.pages} pages of {built.records} records in {output}: open {output / 'index.html'}"
    )
    if built.broken_links:
        raise SystemExit(1)


@click.command()
@book_argument
@click.option(
    "--port",
    default=8765,
    show_default=True,
    type=click.IntRange(0, 65535),
    help="Where to listen on this machine; 0 takes any free port.",
)
def serve(book: Path | None, port: int) -> None:
    """Build the site, show it on this machine, and build again when a record changes.

    Only this machine can see it. A record that does not pass is printed and the last good
    site stays up.
    """
    with tempfile.TemporaryDirectory(prefix="loombook-") as folder:
        site = Path(folder) / "site"
        seen = _rebuild(opened(book), site)
        handler = partial(_QuietHandler, directory=str(site))
        try:
            server = ThreadingHTTPServer(("127.0.0.1", port), handler)
        except OSError as error:
            raise click.UsageError(f"port {port} is taken: name another with --port") from error
        Thread(target=server.serve_forever, daemon=True).start()
        click.echo(f"http://127.0.0.1:{server.server_port}/  (end with Ctrl-C)")
        _watch(book, site, seen)


def _watch(book: Path | None, site: Path, seen: dict[Path, int]) -> None:
    try:
        while True:
            time.sleep(1)
            if _stamps(opened(book)) != seen:
                seen = _rebuild(opened(book), site)
    except KeyboardInterrupt:
        click.echo("")


def _rebuild(book: Book, site: Path) -> dict[Path, int]:
    stamps = _stamps(book)
    checked = check_book(book)
    for finding in checked.findings:
        if finding.fails_check:
            click.echo(finding_text(finding), err=True)
    if not checked.failing:
        click.echo(f"{build_site(checked, site).pages} pages built")
    elif not site.exists():
        raise SystemExit(1)
    return stamps


def _stamps(book: Book) -> dict[Path, int]:
    return {file.path: file.path.stat().st_mtime_ns for file in book.files()}


class _QuietHandler(SimpleHTTPRequestHandler):
    """Files of the site, without a line for each request."""

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""

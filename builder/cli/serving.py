"""`loombook serve`: the site of a book that somebody is working on, never older than its records.

What is shown stands in the newest state of the book that was read. A record that does not stand any
more is withdrawn as soon as that is known, with everything made from it; the rest stays up.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from threading import Thread

import click

from builder.book import FOLDERS, Book
from builder.cli.books import opened
from builder.cli.building import UNBUILT, unbuilt_words
from builder.cli.served_site import kept_words, served_site
from builder.cli.site_server import SiteServer
from builder.cli.watching import Moved, watch
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.own_fault import OwnFaultsError, own_words
from builder.pipeline.site.building import note_patched, patch_site
from builder.pipeline.site.part_in_order import StandingPart, standing_part
from builder.rendering.patched_site import PatchedSite
from builder.reporting import finding_text

MAKING = "The site is being made."
MOST_UNSETTLED = 4
"""Looks that find another state each time; then the newest is shown though it may be half saved."""


def serve(book: Path | None, port: int, public: bool, stored: bool) -> None:
    """Show the site until Ctrl-C, and build it again at each change."""

    def open_again(since: Book | None) -> Book:
        return opened(book, public, since=since, stored=stored)

    first = open_again(None)
    first = replace(first, store=first.store.remembering)
    with served_site(first.store) as site:
        server = _server(site.folder, port)
        server.tell(MAKING)
        showing = Showing(site, server, open_again)
        Thread(target=server.serve_forever, daemon=True).start()
        try:
            showing.show(first)
            for words in kept_words(first.store, site):
                click.echo(words)
            click.echo(f"http://127.0.0.1:{server.server_port}/  (end with Ctrl-C)")
            watch(showing)
        except KeyboardInterrupt:
            click.echo("")


def _server(site: Path, port: int) -> SiteServer:
    try:
        return SiteServer(site, port)
    except PermissionError as error:
        raise click.UsageError(
            f"port {port} is not for this user: name one from 1024 up with --port"
        ) from error
    except OSError as error:
        raise click.UsageError(f"port {port} is taken: name another with --port") from error


class Showing:
    """What is shown of a book, and of which state of it that is.

    `open_again` reads the book anew; it gets the book as it was read before, to share with it what
    is still the same.
    """

    def __init__(
        self, site: PatchedSite, server: SiteServer, open_again: Callable[[Book | None], Book]
    ) -> None:
        self._site, self._server, self._open_again = site, server, open_again
        self._book: Book | None = None
        self._looked_at: Book | None = None  # by the last look, shown or not
        self._shown = self._seen = ""  # digests of the book: of what is shown, of the last look
        self._unsettled = 0
        self.look_s = 0.0  # what the last look took, building aside

    @property
    def settings_folders(self) -> list[Path]:
        """Where the settings of the book stand."""
        return [self._book.folder] if self._book else []

    @property
    def record_folders(self) -> list[Path]:
        """Where its records stand, those of other books that it names among them."""
        roots = self._book.roots if self._book else ()
        return [root.folder / name for root in roots for name in FOLDERS]

    def look_again(self, moved: Moved = None) -> bool:
        """Read the book, and show it when its digest moved; False when it is just being saved.

        Where it is known which files `moved` since the last look, only those are read. Dates and
        sizes of files are not trusted for ever: a tool may set the one and keep the other, so now
        and then every file is read. An editor may write a file in several steps, so a new state is
        shown when two looks agree.
        """
        begun = time.monotonic()
        try:
            book = self._looked_at = self._read_again(moved)
            self._seen, before = book.digest, self._seen
        except Exception as error:  # the folder is gone, or nobody may look at it
            self._withdraw(_opening_words(error))
            self._shown, self._looked_at = "", None
            return True
        finally:
            self.look_s = time.monotonic() - begun
        if self._shown == self._seen and self._site.is_known:
            self._unsettled = 0
            return True
        self._unsettled += 1
        if self._seen != before and self._unsettled < MOST_UNSETTLED:
            return False
        self.show(book)
        return True

    def _read_again(self, moved: Moved) -> Book:
        before = self._looked_at
        known = before.where_moved(moved) if before and moved is not None else None
        return known or self._open_again(self._book)

    def show(self, book: Book) -> None:
        """Show what stands of a book; nothing that can be saved ends this with an error."""
        self._book = self._looked_at = book
        self._shown, self._unsettled = book.digest, 0
        try:
            self._build(check_book(book))
        except OSError as error:  # a full disk: tried again at the next look
            place = self._site.folder
            self._withdraw(f"the site cannot be written in {place}: {error.strerror or error}")
            self._shown = ""
        except UNBUILT as error:
            self._withdraw("\n".join(unbuilt_words(error)))
        except Exception as error:  # ours, and told; what is saved next may well do
            self._withdraw(own_words(error))

    def _build(self, checked: CheckedBook) -> None:
        failing = [finding for finding in checked.findings if finding.fails_check]
        words = [finding_text(finding) for finding in failing]
        if failing:  # what does not stand is shown no more, while the rest is being built
            self._withdraw("\n".join(words))
        part = standing_part(checked)
        if part is not None:
            self._build_part(part)

    def _build_part(self, part: StandingPart) -> None:
        try:
            built = patch_site(part.checked, self._site, part.left_out)
        except OwnFaultsError as error:  # found only while pages were written
            self._withdraw("\n".join(unbuilt_words(error)))
            rest = standing_part(part.checked, error.findings)
            if rest is None:
                raise
            self._build_part(rest._replace(left_out=(*part.left_out, *rest.left_out)))
            return
        self._server.tell()
        left = f", {len(part.left_out)} records left out until mended" if part.left_out else ""
        click.echo(f"{built.pages} pages built{left}")
        note_patched(part.checked, self._site, part.left_out, built.pages)

    def _withdraw(self, words: str) -> None:
        """Show these words in the place of every page, and print them when they are new."""
        if self._server.notice != words:
            click.echo(words, err=True)
        self._server.tell(words)


def _opening_words(error: Exception) -> str:
    if isinstance(error, click.ClickException):
        return error.format_message()
    if isinstance(error, OSError):
        return f"the book cannot be read: {error.strerror or error}"
    return own_words(error)

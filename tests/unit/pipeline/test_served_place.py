"""Where the served site is kept: one process at a time, in a folder of nobody else, bounded."""

from __future__ import annotations

import os
import shutil
import signal
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import forked
import pytest
from serving_book import PAGE, serving_book

from builder.book import Book
from builder.cli import main, serving
from builder.cli.books import opened
from builder.cli.served_site import FOLDER_NAME, kept_words, served_site
from builder.cli.serving import Showing
from builder.cli.site_server import SiteServer
from builder.rendering import patched_site
from builder.rendering.patched_site import PatchedSite
from builder.store import FOLDER, NO_STORE, NO_STORE_VARIABLE, Store, store_of
from builder.store.kept_folder import KeptFolder

OWN = b"k" * 32
posix = pytest.mark.skipif(os.name != "posix", reason="needs fork and permissions")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return serving_book(tmp_path / "book")


@pytest.fixture
def place(book: Path) -> Path:
    return book / FOLDER / FOLDER_NAME


@contextmanager
def showing(book: Path, store: Store, site: PatchedSite) -> Iterator[Showing]:
    """What shows a book, without the watching."""

    def open_again(since: Book | None) -> Book:
        return opened(book, since=since, stored=store.is_kept)

    server = SiteServer(site.folder)
    try:
        found = Showing(site, server, open_again)
        found.show(open_again(None))
        yield found
    finally:
        server.server_close()


def test_a_second_process_shows_a_site_of_its_own(book: Path, place: Path) -> None:
    store = Store(book, OWN)
    with served_site(store) as first:
        assert first.folder == place
        with served_site(store) as second:
            assert not second.folder.is_relative_to(book)
            with showing(book, store, second):
                assert (second.folder / PAGE).is_file()
                assert not any(place.iterdir())
                assert "another serve has" in "".join(kept_words(store, second))
        assert not second.folder.exists()
    with served_site(store) as third:
        assert third.folder == place


@posix
def test_who_is_killed_holds_it_no_more(book: Path, place: Path) -> None:
    child = os.fork()
    if child == 0:
        with served_site(Store(book, OWN)):
            os.kill(os.getpid(), signal.SIGKILL)
    assert os.WIFSIGNALED(os.waitpid(child, 0)[1])
    with served_site(Store(book, OWN)) as site:
        assert site.folder == place


def test_a_folder_that_is_deleted_while_it_is_shown_is_made_again(book: Path, place: Path) -> None:
    store = store_of(book)
    with served_site(store) as site, showing(book, store, site) as shown:
        assert shown.look_again() and (place / PAGE).is_file()
        shutil.rmtree(book / FOLDER)
        assert shown.look_again() and (place / PAGE).is_file()
        assert site.is_known and not KeptFolder(place).hold()


def test_a_folder_that_another_took_meanwhile_is_left_to_it(
    book: Path, place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    store = store_of(book)
    with served_site(store) as site, showing(book, store, site) as shown:
        assert shown.look_again()
        shutil.rmtree(book / FOLDER)
        with served_site(store) as other:
            assert other.folder == place
            shown.look_again()
            assert not any(place.iterdir())
            assert "another serve has the folder" in capsys.readouterr().err
        shown.look_again()
        assert (place / PAGE).is_file()


def foreign_link(place: Path) -> None:
    (place.parent.parent / "elsewhere").mkdir()
    place.parent.symlink_to("elsewhere")


def site_link(place: Path) -> None:
    foreign_link(place)
    place.parent.unlink()
    place.parent.mkdir()
    place.symlink_to("../elsewhere")


def all_may_write(place: Path) -> None:
    place.mkdir(parents=True)
    place.chmod(0o777)


def file_there(place: Path) -> None:
    place.parent.mkdir()
    place.write_text("mine", "utf-8")


@posix
@pytest.mark.parametrize("spoil", [foreign_link, site_link, all_may_write, file_there])
def test_a_place_that_is_not_this_users_alone_is_left_as_it_is(
    book: Path, place: Path, spoil: object
) -> None:
    assert callable(spoil)
    spoil(place)
    before = sorted(book.rglob("*"))
    with served_site(Store(book, OWN)) as site:
        assert not site.folder.is_relative_to(book)
    after = {path for path in book.rglob("*") if path.name != ".gitignore"}
    assert {*before} == after


@posix
def test_a_folder_of_another_user_is_left_to_him(
    book: Path, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place.mkdir(parents=True)
    monkeypatch.setattr(os, "getuid", lambda: place.stat().st_uid + 1)
    with served_site(Store(book, OWN)) as site:
        assert not site.folder.is_relative_to(book)


@posix
def test_nobody_else_may_look_into_it(book: Path, place: Path) -> None:
    """A site may hold private records, and is shown by this user's own server."""
    with served_site(Store(book, OWN)):
        assert place.stat().st_mode & 0o777 == 0o700


def test_what_is_too_large_is_made_for_one_time(
    book: Path, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = Store(book, OWN)
    with served_site(store) as site, showing(book, store, site):
        words = "".join(kept_words(store, site))
        assert words.startswith(f"kept for the next start: {site.size_bytes / 1e6:.1f} MB of at")
        size = site.size_bytes
    assert size == sum(path.stat().st_size for path in place.rglob("*") if path.is_file())
    monkeypatch.setattr(patched_site, "MOST_SITE_BYTES", size - 1)
    with served_site(store) as site, showing(book, store, site):
        assert "made for this time" in "".join(kept_words(store, site))
        assert (place / PAGE).is_file()
    assert not place.exists()


@pytest.mark.parametrize("how", ["option", "variable"])
def test_who_wants_no_store_leaves_nothing(
    book: Path, monkeypatch: pytest.MonkeyPatch, how: str
) -> None:
    if how == "variable":
        monkeypatch.setenv(NO_STORE_VARIABLE, "1")
    monkeypatch.setattr(serving, "watch", ended)
    seen = noted_folders(monkeypatch)
    serving.serve(book, 0, public=False, stored=how == "variable")
    (folder,) = seen
    assert not folder.exists() and not folder.is_relative_to(book)
    assert not (book / FOLDER).exists()


def noted_folders(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    seen: list[Path] = []
    server = serving._server

    def noting(site: Path, port: int) -> SiteServer:
        seen.append(site)
        return server(site, port)

    monkeypatch.setattr(serving, "_server", noting)
    return seen


def ended(shown: Showing) -> None:
    raise KeyboardInterrupt


def test_no_file_is_shown_before_the_book_was_checked(
    book: Path, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(serving, "watch", ended)
    serving.serve(book, 0, public=False, stored=True)
    assert (place / PAGE).is_file()
    told = []

    def show(shown: Showing, first: Book) -> None:
        address = f"http://127.0.0.1:{shown._server.server_port}/{PAGE}"
        with pytest.raises(urllib.request.HTTPError) as error:
            urllib.request.urlopen(address, timeout=20)
        told.append((error.value.code, error.value.read().decode()))

    monkeypatch.setattr(Showing, "show", show)
    serving.serve(book, 0, public=False, stored=True)
    ((status, text),) = told
    assert status == 503 and serving.MAKING in text


@posix
def test_the_command_keeps_its_site_whether_it_ends_or_is_killed(book: Path, place: Path) -> None:
    for end in (signal.SIGINT, signal.SIGKILL):
        reading, writing = os.pipe()
        child = forked.start(lambda: main(["serve", str(book), "--port", "0"]), writing, writing)
        os.close(writing)
        with os.fdopen(reading, encoding="utf-8") as said:
            lines = []
            for line in said:
                lines.append(line)
                if line.startswith("http"):
                    break
            os.kill(child, end)
            os.waitpid(child, 0)
        assert any("kept for the next start" in line for line in lines), lines
        assert (place / PAGE).is_file()


def test_without_a_store_there_is_nothing_to_say(book: Path) -> None:
    with served_site(NO_STORE) as site, showing(book, NO_STORE, site):
        assert [*kept_words(NO_STORE, site)] == []

"""Links: what leads out of a book is not read, and nothing private is shared by a second name."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest
from shipped_book import loombook
from shop_book import shop_book

SECRET = "root: x:0:0 :/very/secret"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return shop_book(tmp_path / "book")


@pytest.fixture
def secret(tmp_path: Path) -> Path:
    place = tmp_path / "secret.txt"
    place.write_text(f"{SECRET}\n*secret: [\n", "utf-8")
    return place


def checked(book: Path, *words: str) -> str:
    done = loombook("check", book, *words)
    assert done.exception is None or isinstance(done.exception, SystemExit)
    return done.output


def test_a_record_that_links_out_of_its_book_is_refused_and_not_quoted(
    book: Path, secret: Path
) -> None:
    (book / "shared" / "converters" / "way-out.yaml").symlink_to(secret)
    said = checked(book)
    assert "way-out.yaml:1:1: stop YML123" in said
    assert "secret.txt" not in said and "x:0:0" not in said and "*secret" not in said


@pytest.mark.parametrize(
    "command", [("mend", "--dry-run"), ("tidy", "--check"), ("find", "veldane"), ("next",)]
)
def test_no_command_quotes_it(book: Path, secret: Path, command: tuple[str, ...]) -> None:
    (book / "shared" / "converters" / "way-out.yaml").symlink_to(secret)
    done = loombook(*command, "--book", book)
    assert SECRET not in done.output and ":0:0" not in done.output


def test_a_linked_folder_of_records_leads_out_as_well(book: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    (book / "shared" / "cables").rename(elsewhere)
    (book / "shared" / "cables").symlink_to(elsewhere)
    said = checked(book)
    assert said.count("stop YML123") == len(list(elsewhere.glob("*.yaml")))


def test_a_linked_folder_further_in_is_told_of_where_its_records_are_read_nowhere(
    book: Path, tmp_path: Path
) -> None:
    makes = book / "shared" / "vehicles"
    (make,) = [path for path in makes.iterdir() if path.is_dir()][:1]
    (makes / "alias").symlink_to(make)
    (tmp_path / "photos").mkdir()
    (makes / "photos").symlink_to(tmp_path / "photos")
    assert "BOK112" not in checked(book)
    elsewhere = make.rename(tmp_path / "elsewhere")
    make.symlink_to(elsewhere)
    said = checked(book)
    assert f"{make.name}:1:1: warn BOK112 the folder is a link" in said
    assert "under `roots` in book.yaml" in said


def test_a_folder_that_may_not_be_looked_into_is_told_of_and_stops_the_build(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (make,) = [path for path in (book / "shared" / "vehicles").iterdir() if path.is_dir()][:1]
    look = os.scandir

    def refusing(place: os.PathLike[str] | str) -> object:
        if Path(place) == make:  # root may look into every folder
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), os.fspath(place))
        return look(place)

    monkeypatch.setattr(os, "scandir", refusing)
    said = checked(book)
    assert f"{make.name}:1:1: stop BOK131 the folder cannot be looked into: Permission" in said
    built = loombook("build", book, "-o", tmp_path / "site")
    assert built.exit_code == 1 and not (tmp_path / "site").exists()


def test_a_link_inside_the_book_is_read(book: Path) -> None:
    there = book / "shared" / "converters" / "cvn-2a.yaml"
    real = there.rename(book / "shared" / "kept-here.yaml")
    there.symlink_to(real)
    assert "YML123" not in checked(book)


def test_a_book_that_is_reached_by_a_link_is_read(book: Path, tmp_path: Path) -> None:
    (tmp_path / "by-link").symlink_to(book)
    assert "YML123" not in checked(tmp_path / "by-link")


@pytest.mark.parametrize("words", [(), ("--public",)], ids=["whole", "public"])
def test_a_private_record_with_a_shared_name_is_found(book: Path, words: tuple[str, ...]) -> None:
    private = next((book / "zqfolder" / "converters").glob("*.yaml"))
    os.link(private, book / "shared" / "converters" / "shared-name.yaml")
    said = checked(book, *words)
    assert "shared-name.yaml:1:1: stop YML124" in said
    shared = [line for line in said.splitlines() if "shared-name" in line]
    assert not any("zq" in line for line in shared)


def test_two_shared_names_of_one_file_are_no_leak(book: Path) -> None:
    there = book / "shared" / "converters" / "cvn-2a.yaml"
    os.link(there, book / "shared" / "converters" / "cvn-2b.yaml")
    assert "YML124" not in checked(book)


def test_a_shared_link_to_a_private_record_is_not_published(book: Path, tmp_path: Path) -> None:
    private = next((book / "zqfolder" / "vehicles" / "zqmaker").glob("zq*.yaml"))
    (book / "shared" / "vehicles" / "ostrel" / "by-link.yaml").symlink_to(private)
    checked(book)  # of the whole book, which may name what it likes
    assert "zq" not in checked(book, "--public")
    site = tmp_path / "site"
    loombook("build", book, "--public", "--output", site)
    pages = [p for p in site.rglob("*") if p.is_file()] if site.exists() else []
    assert not any(b"zqmake" in page.read_bytes().lower() for page in pages)

"""Where a site is written: through a link, readable by everybody, once an address, whole."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest
from shipped_book import loombook

from builder.pipeline.site import shared_pages
from builder.pipeline.site.site_writer import SiteWriter
from builder.rendering.page import BuildInfo, Page
from builder.rendering.shell import Shell
from builder.rendering.writing import (
    AddressTakenError,
    NoPlaceError,
    WrittenFile,
    fresh_site,
    write_files,
    write_text,
)
from builder.rendering.zipping import write_zip

NO_SHELL = Shell((), (), (), "")


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def build(site: Path, words: str) -> None:
    with fresh_site(site) as folder:
        write_files(folder, [("index.html", words.encode()), ("a/b.html", b"b")])


def test_a_link_to_the_site_stays_and_what_it_leads_to_is_new(tmp_path: Path) -> None:
    (tmp_path / "web").mkdir()
    (tmp_path / "here").mkdir()
    link, real = tmp_path / "here" / "site", tmp_path / "web" / "pins"
    build(real, "one")
    link.symlink_to(real)
    build(link, "two")
    assert link.is_symlink() and link.resolve() == real
    assert (real / "index.html").read_text("utf-8") == "two"
    assert names_in(tmp_path / "here") == ["site"] and names_in(tmp_path / "web") == ["pins"]


def test_a_link_to_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "site").symlink_to("real")
    build(tmp_path / "site", "one")
    assert (tmp_path / "site").is_symlink()
    assert (tmp_path / "real" / "index.html").exists()


def test_a_link_that_leads_nowhere_or_to_others_is_refused_in_a_sentence(
    tmp_path: Path, small_book: Path
) -> None:
    (tmp_path / "nowhere").symlink_to(tmp_path / "gone")
    (tmp_path / "circle").symlink_to(tmp_path / "circle")
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.jpg").write_bytes(b"x")
    (tmp_path / "foreign").symlink_to("photos")
    (tmp_path / "to-file").symlink_to("photos/a.jpg")
    for name, says in (
        ("nowhere", "which is not there: make that, or remove the link"),
        ("circle", "remove the link"),
        ("foreign", "photos was not made by loombook and is not empty"),
        ("to-file", "is a file, not a folder"),
    ):
        done = loombook("build", small_book, "--output", tmp_path / name)
        assert done.exit_code == 2 and says in done.output, done.output
        assert (tmp_path / name).is_symlink()
    assert not (tmp_path / "gone").exists()
    assert names_in(tmp_path / "photos") == ["a.jpg"]


def test_a_link_to_a_zip_stays_and_the_zip_is_new(tmp_path: Path) -> None:
    build(tmp_path / "site", "one")
    (tmp_path / "stick").mkdir()
    (tmp_path / "stick" / "old.zip").write_bytes(b"old")
    (tmp_path / "site.zip").symlink_to("stick/old.zip")
    write_zip(tmp_path / "site", tmp_path / "site.zip")
    assert (tmp_path / "site.zip").is_symlink()
    assert (tmp_path / "stick" / "old.zip").read_bytes()[:2] == b"PK"
    assert names_in(tmp_path / "stick") == ["old.zip"]
    (tmp_path / "lost.zip").symlink_to("gone/x.zip")
    with pytest.raises(ValueError, match="which is not there"):
        write_zip(tmp_path / "site", tmp_path / "lost.zip")


@contextmanager
def umask(value: int) -> Iterator[None]:
    before = os.umask(value)
    try:
        yield
    finally:
        assert os.umask(before) == value, "the umask of the caller was changed"


@pytest.mark.skipif(os.name != "posix", reason="there are no such permissions")
@pytest.mark.parametrize("mask", [0o077, 0o000])
def test_pages_can_be_read_by_a_web_server_under_any_umask(
    small_book: Path, tmp_path: Path, mask: int
) -> None:
    site, stick = tmp_path / "www" / "pins" / "site", tmp_path / "out" / "stick.zip"
    with umask(mask):
        done = loombook("build", small_book, "--output", site, "--zip", stick)
    assert done.exit_code == 0, done.output
    made = [site.parents[1], site.parent, site, *site.rglob("*"), stick.parent, stick]
    assert len(made) > 100
    for path in made:
        wanted = 0o755 if path.is_dir() else 0o644
        assert stat.S_IMODE(path.stat().st_mode) == wanted, path


def test_an_address_is_never_written_twice(tmp_path: Path) -> None:
    write_text(tmp_path, "index.html", "one")
    with pytest.raises(AddressTakenError, match=r"would stand at index\.html"):
        write_text(tmp_path, "index.html", "two")
    assert (tmp_path / "index.html").read_text("utf-8") == "one"


@pytest.mark.parametrize("other", ["a/INDEX.html", "A/index.html", "a/index.html"])
def test_addresses_that_some_disks_take_for_one_are_refused(tmp_path: Path, other: str) -> None:
    writer = SiteWriter(tmp_path, NO_SHELL)
    writer.take_in([WrittenFile("a/index.html", 1, "")])
    with pytest.raises(AddressTakenError):
        writer.take_in([WrittenFile(other, 1, "")])


def test_two_letters_that_look_alike_in_another_coding_are_one_address(tmp_path: Path) -> None:
    writer = SiteWriter(tmp_path, NO_SHELL)
    writer.take_in([WrittenFile("\u00e9.html", 1, "")])
    with pytest.raises(AddressTakenError):
        writer.take_in([WrittenFile("e\u0301.html", 1, "")])


def place_of_index(site: Path) -> tuple[int, int]:
    """Where the first page stands on the disk, and when it was written."""
    about = (site / "index.html").stat()
    return about.st_ino, about.st_mtime_ns


def test_a_site_with_two_files_at_one_address_is_not_swapped_in(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "out" / "site"
    assert loombook("build", small_book, "--output", site).exit_code == 0
    before, text = place_of_index(site), (site / "index.html").read_bytes()
    real = shared_pages.list_pages

    def twice(*arguments: object) -> list[object]:
        pages = list(real(*arguments))  # type: ignore[arg-type]
        return [*pages, pages[0]]

    monkeypatch.setattr(shared_pages, "list_pages", twice)
    done = loombook("build", small_book, "--output", site, "--no-store")
    assert done.exit_code == 1
    assert "two files of the site would stand at" in done.output
    assert "no site was written; one that was there stays as it is" in done.output
    assert place_of_index(site) == before and (site / "index.html").read_bytes() == text
    assert names_in(tmp_path / "out") == ["site"]


def test_a_site_with_a_broken_link_is_not_swapped_in(
    small_book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "out" / "site"
    assert loombook("build", small_book, "--output", site).exit_code == 0
    before, text = place_of_index(site), (site / "index.html").read_bytes()
    real = shared_pages.data_page

    def with_dead_link(info: BuildInfo) -> Page:
        page = real(info)
        return replace(page, body_html=f'{page.body_html}<a href="gone.html">gone</a>')

    monkeypatch.setattr(shared_pages, "data_page", with_dead_link)
    done = loombook("build", small_book, "--output", site, "--no-store")
    assert done.exit_code == 1
    assert "gone.html" in done.output
    assert "no site was written; one that was there stays as it is" in done.output
    assert place_of_index(site) == before and (site / "index.html").read_bytes() == text
    assert names_in(tmp_path / "out") == ["site"]
    first = ("build", small_book, "--output", tmp_path / "out" / "first", "--no-store")
    assert loombook(*first).exit_code == 1
    assert names_in(tmp_path / "out") == ["site"]


def test_a_link_to_what_is_no_site_is_not_followed_by_the_refusal(tmp_path: Path) -> None:
    (tmp_path / "site").symlink_to("gone")
    with pytest.raises(NoPlaceError), fresh_site(tmp_path / "site"):
        pytest.fail("nothing is to be written")

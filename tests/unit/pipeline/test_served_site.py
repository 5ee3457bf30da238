"""The site that is served is kept for the next start, and nothing of it is shown on trust."""

from __future__ import annotations

import os
import random
import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from edited_book import CAR, furnished
from killing import STEPS, killed_at

from builder.book import open_book
from builder.cli.served_site import FOLDER_NAME, served_site
from builder.pipeline.checking import kept as kept_rows
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.site import building
from builder.pipeline.site.building import note_patched, patch_site
from builder.pipeline.site.part_in_order import standing_part
from builder.rendering.patched_site import PatchedSite
from builder.store import FOLDER, NO_STORE, Store

OWN = b"k" * 32
KILLS = 8
MOST_STEPS = {2: 12, len(STEPS): 150}
"""Fewer steps than what an edit takes: all of them, and those that put files in their places."""
PAGE = f"vehicles/{CAR.stem}.html"


@pytest.fixture
def book(small_book: Path) -> Path:
    return furnished(small_book)


@pytest.fixture
def place(book: Path) -> Path:
    return book / FOLDER / FOLDER_NAME


def patched(book: Path, site: PatchedSite, store: Store) -> None:
    part = standing_part(check_book(replace(open_book(book), store=store)))
    assert part is not None
    built = patch_site(part.checked, site, part.left_out)
    note_patched(part.checked, site, part.left_out, built.pages)


def shown(book: Path, own_key: bytes = OWN) -> dict[str, bytes]:
    """What a start shows that a process of this user makes, which then ends."""
    store = Store(book, own_key).remembering
    with served_site(store) as site:
        patched(book, site, store)
        return contents(site.folder)


def from_nothing(book: Path) -> dict[str, bytes]:
    with served_site(NO_STORE) as site:
        patched(book, site, NO_STORE)
        return contents(site.folder)


def contents(site: Path) -> dict[str, bytes]:
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def on_disk(site: Path) -> dict[str, tuple[int, int]]:
    files = (path for path in site.rglob("*") if path.is_file())
    told = ((path, path.stat()) for path in files)
    return {p.relative_to(site).as_posix(): (about.st_ino, about.st_ctime_ns) for p, about in told}


def called(book: Path, variant: str) -> None:
    """Let the car be of another variant."""
    text = (book / CAR).read_text("utf-8")
    (book / CAR).write_text(re.sub(r"^variant: .*$", f"variant: {variant}", text, flags=re.M))


def test_the_next_start_of_the_same_book_writes_nothing(
    book: Path, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = shown(book)
    before = on_disk(place)
    assert first == from_nothing(book)
    monkeypatch.setattr(building, "_write_site", None)
    assert shown(book) == first
    assert on_disk(place) == before


def test_what_was_edited_meanwhile_is_made_and_the_rest_stays(book: Path, place: Path) -> None:
    shown(book)
    before = on_disk(place)
    called(book, "Newer")
    assert shown(book) == from_nothing(book)
    cars = {url for url, told in on_disk(place).items() if before.get(url) != told}
    cars = {url for url in cars if re.match(r"(vehicles|plans)/.*-", url)}
    assert PAGE in cars and all(CAR.stem in url for url in cars)


def test_a_record_that_does_not_stand_is_told_of_at_the_next_start_too(book: Path) -> None:
    (book / CAR).write_text("schema: 1\nid: [\n", "utf-8")
    first = shown(book)
    assert b"does not stand" in first[PAGE]
    assert shown(book) == first == from_nothing(book)


def byte_changed(site: Path) -> None:
    """Size and date stay as they were."""
    page = site / PAGE
    about, raw = page.stat(), page.read_bytes()
    page.write_bytes(raw.replace(b"<h1>", b"<h2>", 1))
    os.utime(page, ns=(about.st_atime_ns, about.st_mtime_ns))
    assert page.stat().st_size == about.st_size and page.read_bytes() != raw


def cut_off(site: Path) -> None:
    os.truncate(site / PAGE, 100)


def gone(site: Path) -> None:
    (site / PAGE).unlink()


def brought_along(site: Path) -> None:
    (site / "vehicles" / "brought.html").write_text("<h1>Another</h1>", "utf-8")


def one_link(site: Path) -> None:
    (site / PAGE).rename(site.parent / "away.html")
    (site / PAGE).symlink_to(site.parent / "away.html")


def folder_link(site: Path) -> None:
    (site / "vehicles").rename(site.parent / "away")
    (site / "vehicles").symlink_to(site.parent / "away")


def file_for_folder(site: Path) -> None:
    shutil.rmtree(site / "vehicles")
    (site / "vehicles").write_text("none", "utf-8")


def folder_for_file(site: Path) -> None:
    (site / PAGE).unlink()
    (site / PAGE / "deep").mkdir(parents=True)


def store_gone(site: Path) -> None:
    for file in site.parent.glob("*.sqlite3"):
        file.unlink()


def store_cut(site: Path) -> None:
    for file in site.parent.glob("*.sqlite3"):
        os.truncate(file, file.stat().st_size // 2)


SPOILT = [
    byte_changed, cut_off, gone, brought_along, one_link, folder_link, file_for_folder,
    folder_for_file, store_gone, store_cut,
]  # fmt: skip


@pytest.mark.parametrize("spoil", SPOILT, ids=lambda spoil: spoil.__name__)
def test_what_was_damaged_is_made_anew(
    book: Path, place: Path, spoil: Callable[[Path], None]
) -> None:
    first = shown(book)
    spoil(place)
    away = contents(place.parent / "away")
    assert contents(place) != first or spoil in (one_link, folder_link, store_gone, store_cut)
    assert shown(book) == first
    assert not any(path.is_symlink() for path in place.rglob("*"))
    assert contents(place.parent / "away") == away  # what a link leads to is nobody's to remove


def test_a_site_that_another_user_noted_is_not_believed(book: Path, place: Path) -> None:
    first = shown(book, b"j" * 32)
    before = on_disk(place)
    assert shown(book) == first
    after = on_disk(place)
    assert not any(before[url] == told for url, told in after.items())


def test_a_book_that_was_copied_with_its_folder_is_made_anew(book: Path, tmp_path: Path) -> None:
    shown(book)
    other = Path(shutil.copytree(book, tmp_path / "other"))
    called(other, "Newer")
    assert shown(other) == from_nothing(other)


def test_another_version_shows_what_it_makes_itself(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = shown(book)
    monkeypatch.setattr(building, "__version__", "0.0.0")
    monkeypatch.setattr(kept_rows, "tool_state", lambda: "another")
    assert shown(book) == from_nothing(book) != first


@pytest.mark.skipif(os.name != "posix", reason="needs fork and SIGKILL")
@pytest.mark.parametrize("steps", [("replace", "unlink"), STEPS], ids=["at the put", "anywhere"])
def test_a_kill_at_any_moment_leaves_nothing_that_is_believed(
    book: Path, place: Path, steps: tuple[str, ...]
) -> None:
    variants, whole = ("Newer", "Older"), {}
    for variant in variants:
        called(book, variant)
        whole[variant] = from_nothing(book)
    shown(book)
    chance, mixed = random.Random(5), 0
    for number in range(KILLS):
        called(book, variant := variants[number % 2])
        assert killed_at(1 + chance.randrange(MOST_STEPS[len(steps)]), lambda: shown(book), steps)
        mixed += contents(place) not in whole.values()
        if chance.randrange(2):  # the edit is taken back: what it had put there is old already
            called(book, back := variants[number % 2 - 1])
            assert shown(book) == whole[back]
            called(book, variant)
        assert shown(book) == whole[variant]
        assert [path.name for path in place.parent.iterdir() if path.is_dir()] == [FOLDER_NAME]
    assert mixed > KILLS / 2 or steps is STEPS

"""A build with a store writes what one from nothing does, and leaves alone what stays the same."""

from __future__ import annotations

import os
import random
import re
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from edited_book import CAR, JOB, VISITED, edit, furnished, texts
from samples import LONG
from shipped_book import PINOUTS, loombook

from builder.book import open_book
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.site import building
from builder.pipeline.site.building import BrokenLinksError, build_site, patch_site
from builder.pipeline.site.part_in_order import standing_part
from builder.rendering import standing_site
from builder.rendering.patched_site import PatchedSite
from builder.rendering.writing import MARK
from builder.store import NO_STORE, Store

OWN = b"k" * 32
EDITS = 200 if LONG else 20


@pytest.fixture
def book(small_book: Path) -> Path:
    """Sisters of one maker, a job, a private folder, visits, converters, the examples."""
    shutil.copytree(PINOUTS / "converters", small_book / "converters", dirs_exist_ok=True)
    return furnished(small_book)


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return tmp_path / "site"


def built(book: Path, site: Path, *, store: bool = True) -> str:
    """Build what stands of a book; return why nothing could be built, "" for a site."""
    kept = Store(book, OWN) if store else NO_STORE
    part = standing_part(check_book(replace(open_book(book), store=kept)))
    if part is None:
        return "nothing stands"
    try:
        build_site(part.checked, site)
    except BrokenLinksError as error:
        return str(error)
    return ""


def contents(site: Path) -> dict[str, bytes]:
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def on_disk(site: Path) -> dict[str, tuple[int, int]]:
    """Number and time of each file: neither stays when one is written anew."""
    files = ((path, path.stat()) for path in site.rglob("*") if path.is_file())
    return {
        path.relative_to(site).as_posix(): (about.st_ino, about.st_mtime_ns)
        for path, about in files
    }


def same_as_from_nothing(book: Path, site: Path) -> set[str]:
    """Build both ways; return the files that were written and not left as they were."""
    before = on_disk(site)
    whole = site.with_name("whole")
    shutil.rmtree(whole, ignore_errors=True)
    told = built(book, site), built(book, whole, store=False)
    assert told[0] == told[1]
    if not told[0]:
        made, wanted = contents(site), contents(whole)
        assert made.keys() == wanted.keys()
        assert [url for url in made if made[url] != wanted[url]] == []
    return {url for url, place in on_disk(site).items() if before.get(url) != place}


def of_cars(urls: set[str]) -> set[str]:
    return {url for url in urls if url.startswith(("vehicles/", "plans/", "data/vehicles/"))}


def of_jobs(urls: set[str]) -> set[str]:
    folders = ("jobs/", "comebacks/", "data/jobs/")
    return {url for url in urls if url.startswith(folders) and not url.endswith("/index.html")}


def test_a_job_is_written_again_with_what_it_rests_on_and_no_more(book: Path, site: Path) -> None:
    built(book, site)
    other = book / "vehicles/cindral" / f"{VISITED}.yaml"
    other.write_text(other.read_text("utf-8") + "# looked at\n", "utf-8")
    assert of_jobs(same_as_from_nothing(book, site)) == set()
    text = (book / CAR).read_text("utf-8")
    (book / CAR).write_text(text.replace("variant: ", "variant: New ", 1), "utf-8")
    assert f"jobs/{JOB}.html" in of_jobs(same_as_from_nothing(book, site))
    cable = next((book / "cables").glob("[!T]*.yaml"))
    cable.write_text(re.sub("(?m)^name: .*$", "name: another", cable.read_text("utf-8")), "utf-8")
    same_as_from_nothing(book, site)


@pytest.mark.parametrize("photo", [False, True])
def test_a_site_of_a_book_that_is_the_same_is_left_whole(
    book: Path, site: Path, photo: bool
) -> None:
    if photo:
        name = "tansy-plug-a-wires.png"
        shutil.copy(PINOUTS / CAR.parent / name, book / CAR.parent / name)
    built(book, site)
    before = (site / MARK).stat().st_ino  # each build that fills a folder makes this file anew
    built(book, site)
    assert (site / MARK).stat().st_ino == before
    book.rename(book.with_name("moved"))
    built(book.with_name("moved"), site)
    assert same_as_from_nothing(book.with_name("moved"), site) <= {MARK}


def test_a_site_that_goes_while_it_is_looked_at_is_built(
    book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    built(book, site)
    monkeypatch.setattr(standing_site, "stands_as_noted", gone)
    assert MARK in same_as_from_nothing(book, site)


def gone(*given: object) -> bool:
    raise FileNotFoundError(given)


def test_nothing_of_a_car_is_written_again(book: Path, site: Path) -> None:
    assert of_cars(same_as_from_nothing(book, site))
    assert of_cars(same_as_from_nothing(book, site)) == set()


def test_an_edit_writes_one_car_anew(book: Path, site: Path) -> None:
    built(book, site)
    text = (book / CAR).read_text("utf-8")
    (book / CAR).write_text(text.replace("variant: ", "variant: New ", 1), "utf-8")
    written = of_cars(same_as_from_nothing(book, site))
    assert f"vehicles/{CAR.stem}.html" in written
    assert all(CAR.stem in url or url == "vehicles/index.html" for url in written)


def test_a_new_date_of_one_car_changes_no_page_of_another(book: Path, site: Path) -> None:
    built(book, site)
    visit = sorted((book / "visits" / VISITED).glob("*.yaml"))[-1]
    text = visit.read_text("utf-8")
    visit.write_text(re.sub(r"\bdate: \d{4}", "date: 2039", text), "utf-8")
    written = same_as_from_nothing(book, site)
    assert "assets/loombook.css" in written
    assert all(VISITED in url or url == "vehicles/index.html" for url in of_cars(written))


@pytest.mark.parametrize("how", ["written", "same size and time", "gone", "a link", "moved"])
def test_a_page_damaged_by_hand_is_made_anew(book: Path, site: Path, how: str) -> None:
    built(book, site)
    page, other = site / f"vehicles/{CAR.stem}.html", site / "index.html"
    about, whole = page.stat(), page.read_bytes()
    if how == "written":
        page.write_text("mine", "utf-8")
    elif how == "same size and time":
        page.write_bytes(whole.replace(b"<h1>", b"<h2>", 1))
        os.utime(page, ns=(about.st_atime_ns, about.st_mtime_ns))
        assert page.stat().st_size == about.st_size
    elif how == "gone":
        page.unlink()
    elif how == "a link":
        page.rename(site.with_name("elsewhere"))
        page.symlink_to(site.with_name("elsewhere"))
    else:
        other.replace(page)
    same_as_from_nothing(book, site)
    assert page.read_bytes() == whole and not page.is_symlink()


def test_a_photo_is_shown_as_it_is_now(book: Path, site: Path) -> None:
    """It is no record: it changes while every text stays as it was."""
    photo = book / CAR.parent / "tansy-plug-a-wires.png"
    shutil.copy(PINOUTS / CAR.parent / photo.name, photo)
    built(book, site)
    shown = {path.name for path in (site / "photos").iterdir()}
    assert len(shown) == 1
    shutil.copy(PINOUTS / "vehicles/mirdle/smew-block-a.png", photo)
    assert f"vehicles/{CAR.stem}.html" in same_as_from_nothing(book, site)
    assert shown.isdisjoint(path.name for path in (site / "photos").iterdir())
    photo.unlink()
    same_as_from_nothing(book, site)
    assert not (site / "photos").exists()


def test_what_another_build_put_there_meanwhile_is_not_noted_as_ours(
    book: Path, site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two builds at once, of two states of a book: the other swaps its site in right after ours."""
    built(book, site)
    text = (book / CAR).read_text("utf-8")
    page = site / f"vehicles/{CAR.stem}.html"
    theirs = page.read_bytes().replace(b"<h1>", b"<h2>", 1)
    real = building.note_site

    def late(*given: Any) -> None:
        page.unlink()
        page.write_bytes(theirs)
        real(*given)

    with monkeypatch.context() as racing:
        racing.setattr(building, "note_site", late)
        (book / CAR).write_text(text + "# looked at\n", "utf-8")
        built(book, site)
    assert page.read_bytes() == theirs
    assert f"vehicles/{CAR.stem}.html" in same_as_from_nothing(book, site)


def test_a_site_without_notes_is_read_and_kept(book: Path, site: Path) -> None:
    """As after a build that was killed, or of a site that came from elsewhere."""
    built(book, site)
    copied = site.with_name("copied")
    shutil.copytree(site, copied)
    before = on_disk(copied)
    built(book, copied)
    after = on_disk(copied)
    assert of_cars({url for url, place in after.items() if before[url] != place}) == set()
    assert contents(copied) == contents(site)


def test_a_foreign_store_changes_nothing(book: Path, site: Path) -> None:
    built(book, site)
    file = next((book / ".loombook").glob("*.sqlite3"))
    file.write_bytes(file.read_bytes()[:5000] + b"x" * 5000)
    same_as_from_nothing(book, site)
    shutil.rmtree(book / ".loombook")
    same_as_from_nothing(book, site)


def test_after_any_edit_the_site_is_that_of_a_build_from_nothing(book: Path, site: Path) -> None:
    """Figures, lines and words changed, files copied, renamed, removed and brought back."""
    chance = random.Random(22)
    kept = {path: path.read_bytes() for path in texts(book)}
    built(book, site)
    spared = 0
    for number in range(EDITS):
        edit(book, chance, kept)
        written = same_as_from_nothing(book, site)
        spared += len(of_cars(written)) < len(of_cars(set(on_disk(site)))) / 2
        if number % 10 == 9:
            for path in texts(book):
                path.unlink()
            for path, raw in kept.items():
                path.write_bytes(raw)
    assert spared > EDITS / 2


def patched(book: Path, site: PatchedSite, store: Store) -> bool:
    """Let a site be that of what stands of a book; False when nothing does."""
    part = standing_part(check_book(replace(open_book(book), store=store)))
    if part is not None:
        patch_site(part.checked, site, part.left_out)
    return part is not None


def test_after_any_edit_a_site_that_is_patched_is_that_of_a_build_from_nothing(
    book: Path, site: Path
) -> None:
    store, chance, left_out = Store(book, OWN).remembering, random.Random(23), 0
    shown, kept = PatchedSite(site), {path: path.read_bytes() for path in texts(book)}
    for _ in range(EDITS // 2):
        edit(book, chance, kept)
        whole = PatchedSite(site.with_name("whole"))
        if patched(book, shown, store):
            assert patched(book, whole, NO_STORE)
            assert contents(site) == contents(whole.folder)
            left_out += (site / "left-out.html").exists()
            shutil.rmtree(whole.folder)
    assert left_out  # at times something does not stand


def test_a_patch_leaves_every_other_file_where_it_is(book: Path, site: Path) -> None:
    store, shown = Store(book, OWN).remembering, PatchedSite(site)
    assert patched(book, shown, store)
    before = on_disk(site)
    text = (book / CAR).read_text("utf-8")
    (book / CAR).write_text(text.replace("variant: ", "variant: New ", 1), "utf-8")
    assert patched(book, shown, store)
    new = {url for url, place in on_disk(site).items() if before.get(url) != place}
    assert of_cars(new) and all(CAR.stem in url for url in of_cars(new))


def test_without_a_store_all_is_written(book: Path, site: Path) -> None:
    loombook("build", book, "-o", site)
    first = on_disk(site)
    done = loombook("build", book, "-o", site, "--no-store")
    assert done.exit_code == 0
    assert all(first[url] != place for url, place in on_disk(site).items() if url != MARK)

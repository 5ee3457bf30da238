"""Ids that collide with the site's own pages or with what a disk cannot hold are refused."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from shipped_book import loombook

from builder.book import FOLDERS, open_book
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.reserved_ids import DEVICES, PAGES_OF_LISTS
from builder.pipeline.site.building import build_site

KINDS = {"vehicles/ostrel": "vehicle", "cables": "cable", "housings": "housing"}


def renamed(book: Path, folder: str, record_id: str) -> Path:
    """The first record of a folder under another id and file name."""
    old = next(path for path in sorted((book / folder).glob("*.yaml")) if path.stem != "TEMPLATE")
    text = re.sub(r"^id: .*$", f"id: {record_id}", old.read_text("utf-8"), flags=re.M)
    new = old.with_name(f"{record_id}.yaml")
    new.write_text(text, "utf-8")
    return new


@pytest.mark.parametrize("folder", KINDS)
@pytest.mark.parametrize("record_id", ["index", "con", "aux", "nul", "prn", "com1", "lpt9", "com0"])
def test_a_reserved_id_is_a_finding_at_its_place_that_says_what_to_type(
    small_book: Path, folder: str, record_id: str
) -> None:
    record = renamed(small_book, folder, record_id)
    line = record.read_text("utf-8").split("id: ")[0].count("\n") + 1
    done = loombook("check", small_book)
    assert done.exit_code == 1
    found = next(part for part in done.output.split("\n") if " BOK107 " in part)
    assert f"{record_id}.yaml:{line}:5: stop BOK107" in found
    other = f"{record_id}-{KINDS[folder]}"
    assert f"type another, for example id: {other}, and rename the file to {other}.yaml" in (
        done.output
    )


@pytest.mark.parametrize("record_id", ["indexed", "con-2", "auxiliary", "com10", "lpt", "nullable"])
def test_an_id_that_only_looks_like_one_is_taken(small_book: Path, record_id: str) -> None:
    renamed(small_book, "cables", record_id)
    done = loombook("check", small_book)
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize("record_id", ["a.", ".a", "a.b", "CON", "a b", "a/b", "..", "a~1", "a:b"])
def test_an_id_with_dots_capitals_or_spaces_is_refused_by_its_form(
    small_book: Path, record_id: str
) -> None:
    record = renamed(small_book, "cables", "sample")
    text = record.read_text("utf-8")
    record.write_text(text.replace("id: sample", f'id: "{record_id}"'), "utf-8")
    done = loombook("check", small_book)
    assert done.exit_code == 1 and "SCH106" in done.output, done.output


def test_new_refuses_to_write_a_record_that_no_disk_may_hold(small_book: Path) -> None:
    words = {"use": "speaker_pair", "size": "14 awg", "jacket": "black", "pairs": "red black"}
    options = [part for name, value in words.items() for part in (f"--{name}", value)]
    arguments = ["new", "cable", "-b", small_book, "--name", "Aux", "--singles", "none", *options]
    done = loombook(*arguments)
    assert done.exit_code == 2, done.output
    assert '"aux" is a name that Windows keeps for a device' in done.output
    assert not (small_book / "cables" / "aux.yaml").exists()


def test_every_own_page_in_a_folder_of_records_is_reserved(
    small_book: Path, tmp_path: Path
) -> None:
    book = open_book(small_book)
    site = tmp_path / "site"
    build_site(check_book(book), site)
    records = {file.path.stem for file in book.files()}
    for folder in FOLDERS:
        for place in (site / folder, site / "data" / folder):
            names = {path.name.partition(".")[0] for path in place.glob("*")}
            assert names - records <= PAGES_OF_LISTS, place
    assert not records & (PAGES_OF_LISTS | DEVICES)
    everything = [path.relative_to(site).as_posix() for path in site.rglob("*")]
    assert len({name.casefold() for name in everything}) == len(everything)
    stems = {part.partition(".")[0].casefold() for name in everything for part in name.split("/")}
    assert not stems & DEVICES
    assert not [name for name in everything if name.endswith((".", " "))]

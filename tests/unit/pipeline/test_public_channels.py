"""Ways by which a public site could tell of private records without printing a word of them.

Dates, leftovers of an earlier build, the zip, what the command says, and shared records that
lean on private ones: each is tried on a book whose private records would show in it.
"""

from __future__ import annotations

import re
import shutil
import zipfile
from pathlib import Path

import pytest
from shipped_book import loombook
from shop_book import MARK, OWN_CAR, OWN_JOB, TANSY, shop_book

from builder.book import open_book
from builder.pipeline.checking.book_check import check_book

NEWER = "2026-02-03"
"""A day later than any in the shared records."""


def tree(folder: Path) -> dict[str, bytes]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def built(book: Path, output: Path, *options: str) -> tuple[dict[str, bytes], str]:
    done = loombook("build", book, "--output", output, *options)
    assert done.exit_code == 0, done.output
    return tree(output), done.output


def shared_car(book: Path) -> Path:
    return book / "shared" / "vehicles" / "ostrel" / "ostrel-brindle-2020.yaml"


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def telling_book(folder: Path) -> Path:
    """A shop's book whose private records are newer, and would come first and last in any list."""
    book = shop_book(folder)
    private = book / "zqfolder"
    for path in (private / "vehicles").rglob("*.yaml"):
        text = path.read_text("utf-8")
        text = re.sub(r"(date|edited): 20\d\d-\d\d-\d\d", rf"\1: {NEWER}", text)
        path.write_text(text, "utf-8")
    first = (private / "vehicles" / "zqmaker" / f"{OWN_CAR}.yaml").read_text("utf-8")
    first = first.replace(OWN_CAR, "aaa-zqfirst").replace("make: Zqmake", "make: Aazq")
    (private / "vehicles" / "zqmaker" / "aaa-zqfirst.yaml").write_text(first, "utf-8")
    return book


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return telling_book(tmp_path_factory.mktemp("telling") / "book")


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the same book when it never had a private folder, and its zip beside it."""
    folder = tmp_path_factory.mktemp("plain")
    bare = shop_book(folder / "book", private=False)
    built(bare, folder / "site", "--zip", str(folder / "other.zip"))
    return folder


@pytest.fixture(scope="module")
def replaced(book: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, bytes], Path]:
    """A site with the private records, and the place where a public one took its place."""
    folder = tmp_path_factory.mktemp("replaced")
    before, _ = built(book, folder / "site")
    (folder / "said.txt").write_text(
        built(book, folder / "site", "--public", "--zip", str(folder / "stick.zip"))[1], "utf-8"
    )
    return before, folder


def test_a_site_with_the_private_records_shows_their_dates(replaced):
    assert NEWER.encode() in replaced[0]["assets/loombook.css"]  # or the next test could not fail


def test_neither_a_date_nor_the_order_of_a_list_tells(book, plain, replaced):
    site, wanted = tree(replaced[1] / "site"), tree(plain / "site")
    assert {
        name for name in site.keys() | wanted.keys() if site.get(name) != wanted.get(name)
    } == set()
    said = (replaced[1] / "said.txt").read_text("utf-8")
    assert said and MARK not in said.lower().replace(str(book).lower(), "")


def test_on_the_forge_where_the_private_folder_is_not_the_site_is_the_same(book, plain, tmp_path):
    kept = tmp_path / "book"
    shutil.copytree(book, kept)
    shutil.rmtree(kept / "zqfolder")
    assert built(kept, tmp_path / "site", "--public")[0] == tree(plain / "site")


def test_nothing_is_left_of_a_site_with_private_pages_when_a_public_one_takes_its_place(
    plain, replaced
):
    """The pages that only the private site had are gone, and so is what stood beside it."""
    before, folder = replaced
    assert any(OWN_CAR in name for name in before)
    assert tree(folder / "site") == tree(plain / "site")
    assert {path.name for path in folder.iterdir()} == {"site", "stick.zip", "said.txt"}


def test_the_zip_of_a_public_site_is_that_of_a_book_without_private_records(plain, replaced):
    told = about_files(replaced[1] / "stick.zip")
    assert told == about_files(plain / "other.zip")
    assert len({day for _, day, *_ in told}) == 1


def about_files(archive: Path) -> list[tuple[object, ...]]:
    """What a zip says of each file, but for the folder inside, which is named like the zip."""
    with zipfile.ZipFile(archive) as opened:
        return [
            (one.filename.partition("/")[2], one.date_time, one.CRC, one.comment, one.extra)
            for one in opened.infolist()
        ]


def stopped(book: Path) -> set[str]:
    found = check_book(open_book(book)).findings
    return {Path(f.file).name for f in found if (f.rule_id, f.severity.word) == ("BOK105", "stop")}


def test_a_shared_car_that_names_a_private_sister_is_stopped(tmp_path):
    book = shop_book(tmp_path / "book")
    car = shared_car(book)
    text = car.read_text("utf-8")
    sister = (
        "how_to_tell:\n  - question: Which trim is it?\n    cost: look\n    answers:\n"
        f'      - {{answer: "base", means: this}}\n      - {{answer: "zq", means: {OWN_CAR}}}\n'
    )
    text = re.sub(r"^how_to_tell:.*?\n(?=\S)", sister, text, flags=re.M | re.S)
    car.write_text(text, "utf-8")
    assert car.name in stopped(book)


def test_a_shared_car_that_warns_of_a_private_shell_is_stopped(tmp_path):
    book = shop_book(tmp_path / "book")
    car = shared_car(book)
    like = "look_alikes:\n      - {housing: zqhousing, fits: no, tell: [it is grey, it is wide]}"
    text = re.sub(r"look_alikes: \[\]", like, car.read_text("utf-8"), count=1)
    assert "zqhousing" in text
    car.write_text(text, "utf-8")
    assert car.name in stopped(book)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (f"vehicle: {TANSY}", f"vehicle: {OWN_CAR}"),
        ("part: amn-600", "part: zqamplifier"),
        ("cables: [twin-16,", "cables: [zqcable,"),
        ("converter: cvn-2a", "converter: zqconverter"),
    ],
    ids=["car", "amplifier", "cable", "converter"],
)
def test_a_shared_job_that_is_made_of_private_things_is_stopped(tmp_path, old, new):
    book = shop_book(tmp_path / "book")
    change(book / "shared" / "jobs" / "tansy-subwoofer.yaml", old, new)
    assert "tansy-subwoofer.yaml" in stopped(book)


def test_what_is_looked_up_in_a_public_book_knows_no_private_record(book):
    public = open_book(book, public=True)
    names = {file.path.stem for file in public.files()}
    assert not {name for name in names if MARK in name} and OWN_JOB not in names
    assert TANSY in names

"""Two hundred small books, each in a repository of its own, into one site with whole links."""

from __future__ import annotations

import re
from pathlib import Path

from borrowing import change, repository
from shipped_book import PINOUTS, loombook
from shipped_cars import car_path, typed_text

from builder.book import open_book
from builder.model.locked_books import LockedBook
from builder.pipeline.changing.borrowing import fetch, newest, taken, write_lock
from builder.unfinished import work_folder

BOOKS = 200
SAMPLE = car_path(PINOUTS, "mirdle-smew-2004")
HOUSINGS = sorted(set(re.findall(r"housing: ([a-z0-9-]+)", SAMPLE.read_text("utf-8"))))


def small(place: Path, number: int) -> Path:
    """A shop's book: one car of its own, and the housings that every shop has a copy of."""
    (place / "housings").mkdir(parents=True)
    for name in HOUSINGS:
        text = (PINOUTS / "housings" / f"{name}.yaml").read_bytes()
        (place / "housings" / f"{name}.yaml").write_bytes(text)
    car = place / "vehicles" / "mirdle" / f"mirdle-smew-{number:03}.yaml"
    car.parent.mkdir(parents=True)
    car.write_text(typed_text(SAMPLE.stem), "utf-8")
    change(car, "id: mirdle-smew-2004", f"id: mirdle-smew-{number:03}")
    change(car, "model: Smew", f"model: Smew {number:03}")
    return repository(place)


def borrowed(home: Path, place: Path) -> LockedBook:
    """What `books add` writes of a book, without a process for each."""
    asked = LockedBook(
        name=place.name, address=f"../shops/{place.name}", branch="main", folder=".",
        commit="0" * 40, sum="0" * 64,
    )  # fmt: skip
    found = newest(home, asked)
    with work_folder() as then:
        found = taken(home, found, then)
    fetch(home, found)
    return found


def test_two_hundred_books_are_one_site(tmp_path):
    home = tmp_path / "ours"
    home.mkdir()
    (home / "book.yaml").write_text("schema: 1\nsite_name: All of us\n", "utf-8")
    shops = [small(tmp_path / "shops" / f"shop-{number:03}", number) for number in range(BOOKS)]
    write_lock(home, [borrowed(home, place) for place in shops])
    book = open_book(home)
    assert len(book.borrowed) == BOOKS and not book.findings
    files = book.files()
    assert sum(file.kind == "vehicle" for file in files) == BOOKS
    assert sum(file.kind == "housing" for file in files) == len(HOUSINGS)
    # The build refuses a site with a link that leads nowhere.
    done = loombook("build", home, "--output", tmp_path / "site")
    assert done.exit_code == 0, done.output
    pages = list((tmp_path / "site" / "vehicles").glob("mirdle-smew-*.html"))
    assert len(pages) == BOOKS
    for page in pages[:: BOOKS // 10]:
        shop = f"shop-{page.stem[-3:]}"
        assert f"Borrowed from the book {shop} (" in page.read_text("utf-8")

"""A check with a store finds what one without finds, and looks anew at what changed and no more."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import fields, replace
from pathlib import Path

import pytest
from edited_book import CAR, edit, furnished, texts
from samples import many
from shipped_book import PINOUTS, loombook

from builder.book import Book, open_book
from builder.model.book import Shelf
from builder.pipeline.checking.asked import Ask
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.checked_vehicle import CheckedVehicle, check_vehicle
from builder.pipeline.checking.kept import Kept
from builder.pipeline.checking.shelf import Shelves, read_shelves
from builder.store import NO_STORE_VARIABLE, Store

OWN = b"k" * 32


@pytest.fixture
def book(small_book: Path) -> Path:
    """Sisters of one maker, a job, a private folder, visits, and the commented examples."""
    return furnished(small_book)


def stored(book: Path) -> CheckedBook:
    return check_book(replace(open_book(book), store=Store(book, OWN)))


def told(checked: CheckedBook) -> tuple[object, ...]:
    """All that a check answers, but how much of it was worked out anew."""
    jobs = [(job.file, job.job, job.pack, job.newest) for job in checked.jobs]
    more = (checked.as_of, checked.names, checked.vehicle_files, checked.records)
    return checked.findings, checked.summaries, jobs, more


def same_with_and_without(book: Path) -> CheckedBook:
    with_store, without = stored(book), check_book(open_book(book))
    assert told(with_store) == told(without)
    return with_store


def test_the_second_check_looks_at_nothing(book: Path) -> None:
    first = same_with_and_without(book)
    assert first.anew == len(first.vehicles) + 1
    assert same_with_and_without(book).anew == 0
    moved = book.rename(book.with_name("moved"))
    again = stored(moved)
    assert again.anew <= 1  # a job's own findings name files: these are elsewhere now
    assert told(again) == told(check_book(open_book(moved)))


def test_an_edit_is_looked_at_with_what_rests_on_it_and_no_more(book: Path) -> None:
    stored(book)
    other = next(p for p in sorted((book / "vehicles/ostrel").glob("*.yaml")) if p.name != CAR.name)
    other.write_text(other.read_text("utf-8") + "# looked at\n", "utf-8")
    assert same_with_and_without(book).anew == 1
    (book / CAR).write_text((book / CAR).read_text("utf-8") + "# looked at\n", "utf-8")
    assert same_with_and_without(book).anew == 2  # the vehicle and its job
    (book / "book.yaml").write_text(
        (book / "book.yaml").read_text("utf-8") + "house_defaults: {asleep_min: 25}\n", "utf-8"
    )
    everything = same_with_and_without(book)
    assert everything.anew == len(everything.vehicles) + 1


def test_a_layout_of_a_part_changes_nothing(book: Path) -> None:
    stored(book)
    for housing in (book / "housings").glob("*.yaml"):
        housing.write_text(housing.read_text("utf-8") + "# looked at\n", "utf-8")
    assert same_with_and_without(book).anew == 0


def shelves_of(book: Book) -> Shelves:
    return read_shelves(book, book.files())[0]


def without(shelf: Shelf, source: str, asks: set[Ask]) -> Shelf:
    """A shelf with only what was asked for; of what was walked through, all."""
    kept = {}
    for field in fields(shelf):
        parts = getattr(shelf, field.name)
        if field.name == "vehicle_ids":
            name = f"{source}.vehicle_ids"
            kept[field.name] = {i for i in parts if (name,) in asks or (name, i) in asks}
        elif isinstance(parts, dict) and field.name != "contributors":
            name = f"{source}.{field.name}"
            kept[field.name] = {
                i: part for i, part in parts.items() if (name,) in asks or (name, i) in asks
            }
    return replace(shelf, **kept)


def cases() -> Iterator[tuple[Shelves, CheckedVehicle, set[Ask]]]:
    """Every shipped vehicle checked while what it asks for is written down."""
    book = replace(open_book(PINOUTS), store=Store(PINOUTS, OWN))  # nothing is written into it
    shelves = shelves_of(book)
    kept = Kept(book, shelves)
    for file in book.files():
        if file.kind == "vehicle":
            asks: list[Ask] = []
            yield shelves, check_vehicle(kept.noted_shelves(asks.append), file), set(asks)


def test_what_was_not_asked_for_has_no_say() -> None:
    """A vehicle is checked again without any part that it did not ask for: nothing changes."""
    seen = 0
    for shelves, one, asks in cases():
        alone = Shelves(
            without(shelves.book, "book", asks), without(shelves.with_templates, "examples", asks)
        )
        assert check_vehicle(alone, one.file) == one
        seen += len(asks)
        if not one.file.is_template:
            assert len(alone.book.housings) < len(shelves.book.housings) / 2
            assert not alone.book.converters
    assert seen > 100


def test_what_was_asked_for_is_looked_at_anew(book: Path) -> None:
    """A housing that changes in what it says: who asked for it is checked again, no other."""
    opened = replace(open_book(book), store=Store(book, OWN))
    kept = Kept(opened, shelves_of(opened))
    asked: dict[str, set[Ask]] = {}
    for file in opened.files():
        if file.kind == "vehicle":
            asks: list[Ask] = []
            check_vehicle(kept.noted_shelves(asks.append), file)
            asked[file.path.stem] = set(asks)
    stored(book)
    met = set()
    for housing in sorted((book / "housings").glob("[!T]*.yaml")):
        before = housing.read_text("utf-8")
        housing.write_text(re.sub("(?m)^name: .*$", "name: another", before), "utf-8")
        assert housing.read_text("utf-8") != before
        of_it = {name for name, asks in asked.items() if ("book.housings", housing.stem) in asks}
        checked = same_with_and_without(book)
        assert checked.anew >= len(of_it)
        assert checked.anew <= len(of_it) + 1, "and its job"
        met |= of_it
        housing.write_text(before, "utf-8")
        same_with_and_without(book)
    assert met


def test_after_any_edit_it_finds_the_same(book: Path) -> None:
    """Figures, lines and words changed, files copied, renamed, removed and brought back."""
    chance = random.Random(20)
    kept = {path: path.read_bytes() for path in texts(book)}
    stored(book)
    taken = 0
    for number in range(many(200)):
        edit(book, chance, kept)
        checked = same_with_and_without(book)
        taken += checked.anew < len(checked.vehicles) + len(checked.jobs)
        if number % 10 == 9:
            for path in texts(book):
                path.unlink()
            for path, raw in kept.items():
                path.write_bytes(raw)
    assert taken > many(200) / 2


def test_what_loombook_fails_on_is_tried_again(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from builder.pipeline.checking import checked_vehicle

    with monkeypatch.context() as broken:
        broken.setattr(checked_vehicle, "summarise", lambda vehicle, file: {}[vehicle])
        failing = stored(book)
    assert any(finding.rule_id == "BOK106" for finding in failing.findings)
    assert same_with_and_without(book).anew == len(failing.vehicles) + 1
    assert same_with_and_without(book).anew == 0


def test_another_state_of_the_tool_believes_nothing(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from builder.pipeline.checking import kept

    stored(book)
    monkeypatch.setattr(kept, "tool_state", lambda: "another")
    checked = stored(book)
    assert checked.anew == len(checked.vehicles) + 1


def test_the_command_says_what_it_did(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(NO_STORE_VARIABLE, raising=False)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    first = loombook("check", book, "-v")
    again = loombook("check", book, "-v")
    assert "; the store takes " in first.stderr and not first.stderr.startswith("0 ")
    assert again.stderr.startswith("0 vehicles and jobs looked at anew; the store takes 0.")
    assert again.stdout == first.stdout and again.exit_code == first.exit_code
    anew = loombook("check", book, "-v", "--no-store")
    assert anew.stderr.endswith("looked at anew; no store\n")
    assert anew.stdout == first.stdout
    part = loombook("check", book / CAR, "--book", book, "-v")
    assert part.stderr.startswith("0 ")

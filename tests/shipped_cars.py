"""Shipped cars with what was measured on them: a vehicle's own file has no readings.

Who asks about a car reads it here, as commands and pages do. Who changes its text in a small book
takes its visits along (`copy_makers`, `copy_car`), or has them typed into it (`typed_in_one`).
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

from shipped_book import PINOUTS

from builder.book import Book, RecordFile, open_book
from builder.editing.layout import part_at, read_layout
from builder.editing.splicing import insert_item, insert_key
from builder.findings import DataPath
from builder.loading import load_text
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.parsing import parse_vehicle
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.checking.shelf import counting_shelf

Data = dict[str, Any]
CARS = tuple(sorted(path.stem for path in (PINOUTS / "vehicles").glob("*/*.yaml")))
"""The ids of all shipped cars."""


@cache
def _shipped() -> tuple[dict[str, RecordFile], Shelf]:
    book = open_book(PINOUTS)
    return _vehicle_files(book), counting_shelf(book)


def _vehicle_files(book: Book) -> dict[str, RecordFile]:
    files = (file for file in book.files() if file.kind == "vehicle" and not file.is_template)
    return {file.path.stem: file for file in files}


@cache
def read_car(name: str) -> ReadRecord:
    """A shipped car as its book counts it. Nobody writes into what it holds."""
    files, shelf = _shipped()
    return as_counted(read_record(files[name]), shelf)


def car_data(name: str) -> Data:
    """The data of a shipped car as if all of it were typed in one file, to be changed at will."""
    return deepcopy(read_car(name).data)


def car(name: str) -> Vehicle:
    """A shipped car as if all of it were typed in one file."""
    return parse_vehicle(read_car(name).data)


def copy_makers(book: Path, *makers: str) -> None:
    """Copy the cars of these makers into a book, with what was measured on them."""
    for name in CARS:
        if car_path(PINOUTS, name).parent.name in makers:
            copy_car(book, name)


def copy_car(book: Path, name: str) -> Path:
    """Copy a car into a book, with its photos and what was measured on it; returns its file."""
    own = car_path(PINOUTS, name)
    place = book / own.relative_to(PINOUTS)
    place.parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(own, place)
    for photo in car(name).photos:
        shutil.copy(own.with_name(photo.file), place.parent)
    if (visits := PINOUTS / "visits" / name).is_dir():
        shutil.copytree(visits, book / "visits" / name)
    return place


def car_path(book: Path, name: str) -> Path:
    """The file of a car in a book."""
    (path,) = (book / "vehicles").glob(f"*/{name}.yaml")
    return path


def typed_in_one(book: Path, *names: str) -> None:
    """Write cars of a book, or all, as records held them before visits had files.

    The reverse of what `mend` does with such a record.
    """
    opened = open_book(book)
    shelf = counting_shelf(opened)
    for name, file in _vehicle_files(opened).items():
        data = as_counted(read_record(file), shelf).data
        if file.visits and (not names or name in names):
            file.path.write_text(_in_one(file.path.read_text("utf-8"), data), "utf-8")
            shutil.rmtree(file.visits[0].path.parent)


@cache
def typed_text(name: str) -> str:
    """The text of a shipped car as its record held it before visits had files."""
    return _in_one(car_path(PINOUTS, name).read_text("utf-8"), read_car(name).data)


def _in_one(text: str, data: Data) -> str:
    """A car's text with the sessions and readings of its data that it lacks, in the house style."""
    alone, root = load_text(text, "").data, read_layout(text)
    assert alone is not None
    for session in data["sessions"][len(alone["sessions"]) :]:
        text = insert_item(text, ("sessions",), session, "vehicle")
    for recording in data.get("recordings", [])[len(alone.get("recordings", [])) :]:
        text = insert_item(text, ("recordings",), recording, "vehicle")
    for (path, own), (_, whole) in zip(_holders(alone), _holders(data), strict=True):
        there, new = own.get("readings", []), whole.get("readings", [])
        if not there and new and not part_at(root, path).flow:
            text = insert_key(text, path, "readings", new, "vehicle")  # one reading of the text
        else:
            for reading in new[len(there) :]:
                text = insert_item(text, (*path, "readings"), reading, "vehicle")
    return text


def _holders(data: Data) -> Iterator[tuple[DataPath, Data]]:
    """Each pin and fuse position, with where it stands."""
    for at, plug in enumerate(data["plugs"]):
        for number, pin in enumerate(plug["pins"]):
            yield ("plugs", at, "pins", number), pin
    for at, each in enumerate(data.get("fuse_positions", ())):
        yield ("fuse_positions", at), each

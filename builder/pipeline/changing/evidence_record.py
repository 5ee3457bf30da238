"""The visit that a bay sheet becomes: a file of its own, under a name that nobody has."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from builder.book import FOLDER_OF, Book, RecordFile, home_of, shown_path
from builder.book.record_files import Root
from builder.data_files import schema_ref
from builder.editing import write_record
from builder.editing.evidence_text import PlacedReading
from builder.editing.visit_naming import in_session, name_of_visit
from builder.findings import DataPath, value_at
from builder.model.plugs import PLUGS
from builder.model.sheet import Sheet


class NewVisit(NamedTuple):
    """A visit that is not written yet: its file, and its data."""

    file: RecordFile
    data: dict[str, Any]

    @property
    def text(self) -> str:
        """The record in the house style."""
        path = self.file.path
        return write_record(self.data, "visit", schema_ref(path, "visit", home_of(path)))


def new_visit(
    book: Book, car: RecordFile, data: Mapping[str, Any], sheet: Sheet, new: Sequence[PlacedReading]
) -> NewVisit:
    """Return the visit of a sheet with the readings that its vehicle lacks.

    `data` are those of the vehicle, its other visits in them; readings are placed by their paths.
    """
    bare = [
        {**_place(data, where), "readings": [one.data for one in readings]}
        for where, readings in _by_place(new).items()
    ]
    name = _free_name(book, data, name_of_visit(sheet.session, bare))
    root = _visits_root(book, car)
    path = root.folder / FOLDER_OF["visit"] / car.path.stem / f"{name}.yaml"
    file = RecordFile("visit", path, shown_path(path), root.visibility)
    head = {"schema": 1, "id": name, "data": data["data"], "vehicle": data["id"]}
    sessions = [{"id": name, **sheet.session}]
    return NewVisit(file, {**head, "sessions": sessions, "places": in_session(name, bare)})


def place_numbers(new: Iterable[PlacedReading]) -> list[DataPath]:
    """Return where each reading stands in its visit, in the order given."""
    places: dict[DataPath, int] = {}
    counts: dict[DataPath, int] = {}
    found: list[DataPath] = []
    for one in new:
        place = places.setdefault(one.path, len(places))
        number = counts.get(one.path, 0)
        counts[one.path] = number + 1
        found.append(("places", place, "readings", number))
    return found


def _by_place(new: Iterable[PlacedReading]) -> dict[DataPath, list[PlacedReading]]:
    found: dict[DataPath, list[PlacedReading]] = {}
    for one in new:
        found.setdefault(one.path, []).append(one)
    return found


def _place(data: Mapping[str, Any], path: DataPath) -> dict[str, Any]:
    """A pin or fuse position of a vehicle as a visit names it."""
    holder = value_at(data, path)
    if path[0] == PLUGS:
        return {"plug": data[PLUGS][path[1]]["id"], "cavity": holder["cavity"]}
    return {"panel": holder["panel"], "fuse_position": holder["position"]}


def _free_name(book: Book, data: Mapping[str, Any], start: str) -> str:
    """The name of a visit, numbered where a visit that was withdrawn has it."""
    taken = {session["id"] for session in data["sessions"]}
    taken |= {file.path.stem for file in book.every_file() if file.kind == "visit"}
    return next(name for name in _numbered(start) if name not in taken)


def _numbered(start: str) -> Iterator[str]:
    yield start
    number = 2
    while True:
        yield f"{start[: 80 - 4].rstrip('-')}-{number}"
        number += 1


def visits_folder(book: Book, car: RecordFile) -> Path:
    """Where what is measured on a vehicle goes: beside it, or, of one that another book keeps,
    among the book's own records."""
    return _visits_root(book, car).folder / FOLDER_OF["visit"]


def _visits_root(book: Book, car: RecordFile) -> Root:
    if book.lender_of(car.path) is not None:
        return book.own_roots[0]
    vehicles = FOLDER_OF["vehicle"]
    holding = [root for root in book.roots if car.path.is_relative_to(root.folder / vehicles)]
    return max(holding, key=lambda root: len(root.folder.parts))

"""What is left of a written vehicle: a line for each thing, read only when somebody asks for it.

Lists, finder, tables and the store need different things of a vehicle, and of ten thousand vehicles
most are needed by nothing that is made anew. What a line is tells whether what is made from it is
as it was.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from hashlib import sha256
from typing import Any, Final, Literal, get_args, get_type_hints

from builder.finder.entries import Entry
from builder.pipeline.checking.kept import as_line
from builder.pipeline.site.open_data import DataRecord
from builder.pipeline.site.site_writer import WrittenPages
from builder.pipeline.site.vehicle_pages import WrittenVehicle
from builder.rendering.pages.health import Health
from builder.rendering.pages.parts import Used
from builder.rendering.writing import WrittenFile
from builder.store import as_plain, reader_of

Thing = Literal[
    "make", "entry", "plans", "health", "pages", "data_files", "records", "pin_lines", "photos"
]
_THINGS: Final = get_args(Thing)
_AT: Final[Mapping[Thing, int]] = {name: at for at, name in enumerate(_THINGS)}
_READ: Final = [reader_of(get_type_hints(WrittenVehicle)[name]) for name in _THINGS]
_ONCE: Final[Sequence[Thing]] = ("pages", "data_files", "pin_lines", "photos")
"""What is taken in when a vehicle is written or found, and not asked for again."""


class VehicleRow:
    """A written vehicle as lines, in the order of `Thing`."""

    def __init__(self, lines: Iterable[bytes]) -> None:
        self.lines = [*lines]

    @classmethod
    def of(cls, written: WrittenVehicle) -> VehicleRow:
        """Return the row of a vehicle."""
        return cls(as_line(as_plain(getattr(written, name))) for name in _THINGS)

    def forget(self) -> None:
        """Drop what nobody asks for once it is taken in: of a large book it would fill memory."""
        for name in _ONCE:
            self.lines[_AT[name]] = b""
            self.__dict__.pop(name, None)

    def _read(self, name: Thing) -> Any:
        return _READ[_AT[name]](json.loads(self.lines[_AT[name]]))

    @cached_property
    def make(self) -> str:
        """Its make."""
        make: str = self._read("make")
        return make

    @cached_property
    def entry(self) -> Entry:
        """The vehicle as the finder knows it."""
        entry: Entry = self._read("entry")
        return entry

    @cached_property
    def plans(self) -> list[tuple[str, Used]]:
        """Its plans: the id of the converter, and where the page is."""
        plans: list[tuple[str, Used]] = self._read("plans")
        return plans

    @cached_property
    def health(self) -> Health:
        """How far its pins are proved."""
        health: Health = self._read("health")
        return health

    @cached_property
    def pages(self) -> WrittenPages:
        """Its page and its plans."""
        pages: WrittenPages = self._read("pages")
        return pages

    @cached_property
    def data_files(self) -> list[WrittenFile]:
        """Its JSON and that of its visits."""
        files: list[WrittenFile] = self._read("data_files")
        return files

    @cached_property
    def records(self) -> list[DataRecord]:
        """It and its visits, as the index of the open data names them."""
        records: list[DataRecord] = self._read("records")
        return records

    @property
    def pin_lines(self) -> str:
        """Its rows of the table of all pins."""
        lines: str = self._read("pin_lines")
        return lines

    @cached_property
    def photos(self) -> list[WrittenFile]:
        """The photos that its page shows."""
        photos: list[WrittenFile] = self._read("photos")
        return photos

    @property
    def files(self) -> list[WrittenFile]:
        """All files of this vehicle that are its alone."""
        return [*self.pages.files, *self.data_files]


def sum_of_rows(rows: Iterable[VehicleRow], *names: Thing) -> str:
    """Return a digest of some things of all these vehicles, in hexadecimal."""
    told, places = sha256(), [_AT[name] for name in names]
    for row in rows:
        for at in places:
            told.update(row.lines[at] + b"\n")
    return told.hexdigest()

"""The parts of a book that a vehicle can refer to, and the vehicle among them."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field

from builder.model.contributor import Contributor
from builder.model.house_defaults import HouseDefaults
from builder.model.housing import Housing
from builder.model.parts import Amplifier, Cable, Converter, Interface, Loom
from builder.model.photo_file import PhotoFile


@dataclass(frozen=True, slots=True)
class Shelf:
    """Everything a vehicle record may name: shells and parts by id, and which vehicles exist.

    `photos` are the files of photos, by the folder of their record, as it is reached from
    `photo_home`, and their name: so a book that is moved asks for the same.
    `defaults` are the book's house defaults; `as_of` is the day the book is checked for
    (YYYY-MM-DD), None when nobody gave one: nothing in the core reads a clock.
    """

    housings: Mapping[str, Housing] = field(default_factory=dict)
    converters: Mapping[str, Converter] = field(default_factory=dict)
    amplifiers: Mapping[str, Amplifier] = field(default_factory=dict)
    cables: Mapping[str, Cable] = field(default_factory=dict)
    looms: Mapping[str, Loom] = field(default_factory=dict)
    interfaces: Mapping[str, Interface] = field(default_factory=dict)
    contributors: Mapping[str, Contributor] = field(default_factory=dict)
    photos: Mapping[tuple[str, str], PhotoFile] = field(default_factory=dict)
    photo_home: str = ""
    vehicle_ids: Set[str] = frozenset()
    defaults: HouseDefaults = field(default_factory=HouseDefaults)
    as_of: str | None = None

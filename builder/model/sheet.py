"""A filled bay sheet on its way into the records: one visit to one car."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from builder.findings import DataPath
from builder.model.words import Channel


@dataclass(frozen=True, slots=True)
class SheetReading:
    """One figure and its place: a cavity, a pair or a fuse position, as the sheet names it.

    `facts` are the keys of a reading of a vehicle record, without its session.
    """

    plug: str | None
    cavity: str | None
    pair: Channel | None
    fuse_position: str | None
    facts: dict[str, Any]
    path: DataPath


@dataclass(frozen=True, slots=True)
class SheetResult:
    """What one line of a job's sheet came to; exactly one of the two is None as a rule."""

    test: str
    facts: dict[str, Any]  # value, battery_v, passed
    path: DataPath


@dataclass(frozen=True, slots=True)
class SheetNote:
    """What was noted or photographed at one step or line; at least one of the two is there."""

    facts: dict[str, Any]  # at, note, photo
    path: DataPath


@dataclass(frozen=True, slots=True)
class SheetTick:
    """A step that was ticked, or whose tick was taken off."""

    facts: dict[str, Any]  # at, done
    path: DataPath


@dataclass(frozen=True, slots=True)
class Sheet:
    """A bay sheet. `session` are the keys of a session of a vehicle record, without its id."""

    vehicle: str
    job: str | None
    converter: str | None
    record: str | None  # the sum printed at the foot of the sheet
    session: dict[str, Any]
    readings: tuple[SheetReading, ...]
    results: tuple[SheetResult, ...]
    notes: tuple[SheetNote, ...] = ()
    ticked: tuple[SheetTick, ...] = ()
    old_notes: tuple[SheetReading, ...] = ()  # facts are those of an old note

    @property
    def is_empty(self) -> bool:
        """Whether nothing was filled in."""
        came = (self.readings, self.results, self.notes, self.ticked, self.old_notes)
        return not any(came)

    @property
    def by(self) -> str:
        """Who measured."""
        return str(self.session["by"])

    @property
    def date(self) -> str:
        """The day, YYYY-MM-DD."""
        return str(self.session["date"])

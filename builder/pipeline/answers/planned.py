"""`plan` with a converter: one vehicle of a book, one converter, what the gate leaves of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from builder.book import Book, Name
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.model.words import RecordKind
from builder.pipeline.answers.answering import (
    NoSuchRecordError,
    RefusedRecordError,
    vehicle_meant,
)
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.deciding import DecidedPlan, decide_plan
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.privacy import interfaces_for
from builder.pipeline.checking.records import ReadRecord
from builder.planning.feeds.tap_plan import Treatment
from builder.planning.plan import Plan
from builder.planning.plan_json import plan_as_json
from builder.reporting import finding_data
from builder.speller import nearest

Part = TypeVar("Part")


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan and what it was made for."""

    decided: DecidedPlan
    vehicle: Vehicle
    converter: Converter
    private: bool = False  # made with a record that only this shop may see

    @property
    def plan(self) -> Plan:
        """The plan itself."""
        return self.decided.plan

    def as_data(self) -> dict[str, Any]:
        """The plan as its JSON contract says, with the findings on it."""
        findings = [finding_data(finding) for finding in self.decided.findings]
        return {**plan_as_json(self.plan), "findings": findings}


def planned(book: Book, name: str, converter_id: str, treatment: Treatment) -> Planned:
    """Return the plan for a vehicle and a converter of the book.

    Raises:
        NoSuchRecordError: there is no such vehicle or converter.
        RefusedRecordError: there is, and it cannot be used.
    """
    read, vehicle = vehicle_meant(book, name)
    checked = check_book(book, jobs=(), about=(read.file.path,))
    return _planned(checked, read, vehicle, converter_id, treatment)


def planned_of(checked: CheckedBook, name: str, converter_id: str, treatment: Treatment) -> Planned:
    """The same of a book that is checked; it raises what `planned` raises."""
    return _planned(checked, *vehicle_meant(checked.book, name), converter_id, treatment)


def _planned(
    checked: CheckedBook,
    read: ReadRecord,
    vehicle: Vehicle,
    converter_id: str,
    treatment: Treatment,
) -> Planned:
    book, gate = checked.book, checked.gate()
    converter = part_named(checked.shelf.converters, "converter", converter_id, gate)
    decided = decide_plan(read, vehicle, converter, checked.shelf, gate, treatment)
    named: set[Name] = {("vehicle", vehicle.id), ("converter", converter.id)}
    private = book.any_private(named | interfaces_for(vehicle, checked.shelf))
    return Planned(decided, vehicle, converter, private)


def part_named(parts: Mapping[str, Part], kind: RecordKind, name: str, gate: Gate) -> Part:
    """Return the part of that id.

    Raises:
        NoSuchRecordError: there is none; the message has the nearest spelling, or all ids.
        RefusedRecordError: there is, and it cannot be used.
    """
    if name not in parts and gate.on.get((kind, name)):
        raise RefusedRecordError(gate.on[(kind, name)])
    if name not in parts:
        raise NoSuchRecordError(f'no {kind} is called "{name}"; {_instead(name, parts)}')
    return parts[name]


def _instead(name: str, known: Iterable[str]) -> str:
    near = nearest(name, known)
    every = f"there are: {', '.join(sorted(known))}"
    return f'did you mean "{near}"? {every.capitalize()}' if near else every

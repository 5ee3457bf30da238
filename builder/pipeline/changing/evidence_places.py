"""Where the lines of a bay sheet belong in a vehicle record, and which of them it has already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from builder.findings import DataPath, Fault
from builder.model.legs import legs_of_pairs
from builder.model.sheet import Sheet, SheetReading
from builder.model.vehicle import Vehicle
from builder.parsing.values import without
from builder.proof.visit_places import pins_at


class Place(NamedTuple):
    """A pin or fuse position: its name, its path, and what the other probe was on, or None."""

    name: str
    path: DataPath
    against: str | int | None = None


def place_of(vehicle: Vehicle, reading: SheetReading, trim: str | None) -> Place | Fault:
    """Return where a reading belongs, or what is wrong with the place it names."""
    if reading.pair is not None:
        return _pair(vehicle, reading)
    if reading.fuse_position is not None:
        return _position(vehicle, reading)
    return _cavity(vehicle, reading, trim)


def _cavity(vehicle: Vehicle, reading: SheetReading, trim: str | None) -> Place | Fault:
    plug = vehicle.plug(reading.plug or "")
    name = f"{reading.plug}.{reading.cavity}"
    if plug is None:
        there = ", ".join(each.id for each in vehicle.plugs)
        message = f'the record has no plug "{reading.plug}"'
        return Fault((*reading.path, "plug"), message, f"there are: {there}")
    found = pins_at(plug, reading.cavity or "", trim)
    if len(found) == 1:
        return Place(name, found[0].path)
    message = f"the record does not describe {name}"
    help_text = "correct the cavity, or describe the wire in the vehicle record first"
    if found:
        message = f"the record describes {name} twice, for different trims"
        help_text = "say the trim of the car under `session`"
    return Fault((*reading.path, "cavity"), message, help_text)


def _pair(vehicle: Vehicle, reading: SheetReading) -> Place | Fault:
    pairs = [
        legs
        for (_, channel, _), legs in legs_of_pairs(vehicle).items()
        if channel == reading.pair and len(legs) == 2
    ]
    if not pairs:
        message = f"the record does not describe both wires of {reading.pair}"
        return Fault((*reading.path, "pair"), message, "describe the wires there first")
    (plug, positive), (other, negative) = pairs[0]["positive"][0], pairs[0]["negative"][0]
    same = other.id == plug.id
    cavity: str | int = negative.cavity if same else f"{other.id}.{negative.cavity}"
    against = int(cavity) if isinstance(cavity, str) and cavity.isdigit() else cavity
    return Place(f"{plug.id}.{positive.cavity}", positive.path, against)


def _position(vehicle: Vehicle, reading: SheetReading) -> Place | Fault:
    wanted = reading.fuse_position or ""
    found = [each for each in vehicle.fuse_positions if each.position == wanted]
    if len(found) == 1:
        return Place(wanted, found[0].path)
    there = ", ".join(each.position for each in vehicle.fuse_positions) or "none"
    number = "two fuse positions" if found else "no fuse position"
    message = f'the record has {number} "{wanted}"'
    return Fault((*reading.path, "fuse_position"), message, f"there are: {there}")


def sessions_of_day(sheet: Sheet, sessions: Sequence[Mapping[str, Any]]) -> set[str]:
    """Return the sessions of the same person, day and car: what they hold is not added again."""
    who = (sheet.by, sheet.date, sheet.session["car"]["tag"])
    return {
        str(session["id"])
        for session in sessions
        if (session["by"], session["date"], session["car"]["tag"]) == who
    }


def same_reading(one: Mapping[str, Any], other: Mapping[str, Any], against: str) -> bool:
    """Whether two readings say the same; `against` is where the other probe was unless said."""
    return _whole(one, against) == _whole(other, against)


def _whole(reading: Mapping[str, Any], against: str) -> dict[str, Any]:
    said = without(reading, "session")
    return {"load": "none", **said, "against": str(said.get("against", against))}

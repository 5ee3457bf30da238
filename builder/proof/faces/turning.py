"""Visits and claims that were counted on another face than the plug: their cavities are turned.

This is the only place where that is done. Everything that grades, plans or draws gets a vehicle
whose readings stand at the cavities of the plug as it was counted; `counted_as` keeps what was
typed. What cannot be turned is taken out and named in `Vehicle.face_refusals`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from builder.findings import DataPath
from builder.model.housing import Housing
from builder.model.plugs import Claim, FaceRefusal, Pin, Plug, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES, Face
from builder.proof.faces.poses import mirror

_FACES: tuple[Face, ...] = ("wire_side", "mating_side")


class _Source(NamedTuple):
    """A visit or a claim: whose it is, the face it was counted on, where that is said."""

    who: str
    session: str  # "" for a claim
    face: Face
    path: DataPath


@dataclass(slots=True)
class _Turn:
    """One source in one plug: the cavities it speaks of, and why they cannot be turned."""

    source: _Source
    cavities: list[str] = field(default_factory=list)
    why: str = ""


class _Turner(NamedTuple):
    """A vehicle with the shells of its plugs, and what has to be turned, by plug and source."""

    vehicle: Vehicle
    housings: Mapping[str, Housing]
    turns: dict[tuple[str, DataPath], _Turn]

    def image(self, plug: Plug, face: Face | None, cavity: str) -> str | None:
        """The cavity of the plug that one counted on `face` is; None when it has no counterpart."""
        housing = self.housings.get(plug.housing)
        if not is_other_face(plug.read_from, face, housing):
            return cavity
        return mirror(housing).get(cavity) if housing else None

    def point(self, reading: Reading, plug: Plug, face: Face) -> str | None:
        """What a reading was taken against, turned; None when that cannot be."""
        if reading.against in GROUND_REFERENCES:
            return reading.against
        of, dot, cavity = reading.against.rpartition(".")
        there = self.vehicle.plug(of) if of else plug
        image = self.image(there, face, cavity) if there else cavity
        return f"{of}{dot}{image}" if image else None

    def line(self, plug: Plug, pin: Pin, path: DataPath) -> DataPath | None:
        """Where what is filed at a pin belongs: the path of a line, None for nowhere."""
        turn = self.turns.get((plug.id, path))
        if turn is None:
            return pin.path
        image = None if turn.why else self.image(plug, turn.source.face, pin.cavity)
        found = _line_at(plug, pin, image) if image else None
        return found.path if found else None


def is_other_face(plug_face: Face, face: Face | None, housing: Housing | None) -> bool:
    """Return whether cavities counted on `face` are the mirror of the plug's own.

    Numbers as moulded are the same from both sides. Where the plug has those, a count is compared
    with the face that its shell is drawn from. A face that nobody recorded turns nothing.
    """
    own = plug_face
    if plug_face == "moulded" and housing is not None:
        own = housing.seen_from
    return face in _FACES and own in _FACES and face != own


def needs_turning(vehicle: Vehicle) -> bool:
    """Return whether any visit or claim may be of another face than a plug it speaks of."""
    faces: set[Face | None] = {session.read_from for session in vehicle.sessions}
    faces |= {c.read_from for plug in vehicle.plugs for pin in plug.pins for c in pin.claims}
    return any(
        face in _FACES and face != plug.read_from for plug in vehicle.plugs for face in faces
    )


def turned(vehicle: Vehicle, housings: Mapping[str, Housing]) -> Vehicle:
    """Return the vehicle with every reading and claim at the cavity it is about.

    Args:
        vehicle: As parsed. One that was turned already comes back as it is.
        housings: The shells of the book by id. Without a plug's own nothing of it can be turned.
    """
    if not needs_turning(vehicle) or _was_turned(vehicle):
        return vehicle
    turner = _Turner(vehicle, housings, {})
    _collect(turner)
    plugs = tuple(_turned_plug(plug, turner) for plug in vehicle.plugs)
    return replace(vehicle, plugs=plugs, face_refusals=tuple(_refusals(turner)))


def _was_turned(vehicle: Vehicle) -> bool:
    pins = [pin for plug in vehicle.plugs for pin in plug.pins]
    moved = [one.counted_as for pin in pins for one in pin.readings]
    moved += [one.counted_as for pin in pins for one in pin.claims]
    return bool(vehicle.face_refusals) or any(moved)


def _visits(vehicle: Vehicle) -> dict[str, _Source]:
    return {s.id: _Source(s.by, s.id, s.read_from, s.path) for s in vehicle.sessions}


def _collect(turner: _Turner) -> None:
    """Note every visit and claim that has to be turned in a plug, and why it cannot be."""
    visits = _visits(turner.vehicle)
    for plug in turner.vehicle.plugs:
        housing = turner.housings.get(plug.housing)
        for pin, source, readings in _spoken(plug, visits):
            lost = next((r for r in readings if turner.point(r, plug, source.face) is None), None)
            other = is_other_face(plug.read_from, source.face, housing)
            if other or lost:
                turn = turner.turns.setdefault((plug.id, source.path), _Turn(source))
                turn.cavities.append(pin.cavity)
                image = turner.image(plug, source.face, pin.cavity)
                turn.why = turn.why or _cannot(plug, housing, pin, image)
                if lost and not turn.why:
                    turn.why = f"it was read against {lost.against}, which has no counterpart"


def _spoken(
    plug: Plug, visits: Mapping[str, _Source]
) -> Iterator[tuple[Pin, _Source, tuple[Reading, ...]]]:
    """Yield each pin with every visit and claim that speaks of it."""
    for pin in plug.pins:
        for name in dict.fromkeys(reading.session for reading in pin.readings):
            if name in visits:
                yield pin, visits[name], tuple(r for r in pin.readings if r.session == name)
        for claim in pin.claims:
            if claim.read_from:
                yield pin, _Source(claim.by, "", claim.read_from, claim.path), ()


def _cannot(plug: Plug, housing: Housing | None, pin: Pin, image: str | None) -> str:
    """Why a cavity cannot be turned, "" when it can."""
    if housing is None:
        return f'the housing "{plug.housing}" is not in this book'
    if image is None:
        return f"cavity {pin.cavity} has no counterpart seen from the other face"
    if _line_at(plug, pin, image) is None:
        return (
            f"its cavity {pin.cavity} is cavity {image} of the plug, which has no line of its own"
        )
    return ""


def _line_at(plug: Plug, pin: Pin, cavity: str) -> Pin | None:
    """The line of a cavity that speaks of the same cars as `pin`; the only one otherwise."""
    lines = [one for one in plug.pins if one.cavity == cavity]
    same = [one for one in lines if one.only_if == pin.only_if]
    found = same if len(same) == 1 else lines
    return found[0] if len(found) == 1 else None


def _turned_plug(plug: Plug, turner: _Turner) -> Plug:
    visits = _visits(turner.vehicle)
    readings: defaultdict[DataPath | None, list[Reading]] = defaultdict(list)
    claims: defaultdict[DataPath | None, list[Claim]] = defaultdict(list)
    for pin in plug.pins:
        for reading in pin.readings:
            visit = visits.get(reading.session)
            path = turner.line(plug, pin, visit.path if visit else ())
            point = turner.point(reading, plug, visit.face) if visit else None
            typed = None if path == pin.path else pin.cavity
            moved = replace(reading, against=point or reading.against, counted_as=typed)
            readings[path].append(moved)
        for claim in pin.claims:
            path = turner.line(plug, pin, claim.path)
            claims[path].append(replace(claim, counted_as=None if path == pin.path else pin.cavity))
    order = {session.id: at for at, session in enumerate(turner.vehicle.sessions)}
    pins = tuple(_filled(pin, readings[pin.path], claims[pin.path], order) for pin in plug.pins)
    return replace(plug, pins=pins)


def _filled(
    pin: Pin, readings: list[Reading], claims: list[Claim], order: Mapping[str, int]
) -> Pin:
    """The pin with what is about it; where something was turned here, in the order of visits."""
    if any(one.counted_as for one in readings):
        readings = sorted(readings, key=lambda one: order.get(one.session, len(order)))
    return replace(pin, readings=tuple(readings), claims=tuple(claims))


def _refusals(turner: _Turner) -> Iterator[FaceRefusal]:
    for (plug, _), turn in turner.turns.items():
        if turn.why:
            source, cavities = turn.source, tuple(dict.fromkeys(turn.cavities))
            yield FaceRefusal(
                plug,
                source.who,
                source.session,
                source.face,
                cavities,
                turn.why,
                (*source.path, "read_from"),
            )

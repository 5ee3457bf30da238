"""Where in a vehicle's record a reading of a visit belongs: its pin or fuse position."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.findings import Fault
from builder.model.housing import Housing
from builder.model.pin import Pin
from builder.model.plugs import FusePosition, Plug
from builder.model.reading import Reading
from builder.model.recorded_sound import RecordedSound
from builder.model.session import Session
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit, VisitPlace
from builder.model.words import GROUND_REFERENCES
from builder.proof.faces.poses import mirror
from builder.proof.faces.turning import is_other_face
from builder.speller import nearest


class Shot(NamedTuple):
    """One reading of a visit with its place, its session, and the plug where it is in one."""

    visit: Visit
    place: VisitPlace
    reading: Reading
    session: Session
    plug: Plug | None


class Spot(NamedTuple):
    """The pin or fuse position that a reading is about, and what it was taken against there."""

    holder: Pin | FusePosition
    against: str


class Car(NamedTuple):
    """A vehicle, and the shells of the book by id."""

    vehicle: Vehicle
    housings: Mapping[str, Housing]


def is_mirrored(car: Car, visit: Visit, session: Session, plug: Plug) -> bool:
    """Whether cavities of a plug are the mirror of the plug's own: by what the session says of the
    face it counted on, and by whether the visit was turned since."""
    housing = car.housings.get(plug.housing)
    return is_other_face(plug.read_from, session.read_from, housing) != visit.is_turned(plug.id)


def spot_of(car: Car, shot: Shot) -> Spot | Fault:
    """Return where a reading belongs, or what is wrong with the place that it names."""
    place = shot.place
    if place.fuse_position is not None:
        return _fuse_position(car, shot, place.fuse_position)
    if shot.plug is None:
        there = ", ".join(each.id for each in car.vehicle.plugs)
        told = f'the record {car.vehicle.id} has no plug "{place.plug}"'
        return Fault((*place.path, "plug"), told, f"there are: {there}")
    return _cavity(car, shot, shot.plug)


def _cavity(car: Car, shot: Shot, plug: Plug) -> Spot | Fault:
    typed = str(shot.place.cavity)
    cavity, point = _image(car, shot, plug, typed), _point(car, shot, plug)
    if cavity is None:
        return _unturned(car, shot, plug, typed)
    if point is None:
        return _unturned(car, shot, plug, shot.reading.against)
    found = pins_at(plug, cavity, shot.session.car_trim)
    if len(found) == 1:
        return Spot(found[0], point)
    name = f"{plug.id}.{cavity}" + ("" if cavity == typed else f", the other face's {typed}")
    path = (*shot.place.path, "cavity")
    if found:
        told = f"the record {car.vehicle.id} describes {name} twice, for different trims"
        return Fault(path, told, "say the trim of the car that was measured")
    return Fault(
        path,
        f"the record {car.vehicle.id} does not describe {name}",
        "describe the wire there in the vehicle's record, or, if the visit was counted from the "
        "other face: loombook visit turn",
    )


def _image(car: Car, shot: Shot, plug: Plug, cavity: str) -> str | None:
    """A cavity by the plug's own names; None where it has no counterpart."""
    if not is_mirrored(car, shot.visit, shot.session, plug):
        return cavity
    housing = car.housings.get(plug.housing)
    return mirror(housing).get(cavity) if housing else None


def _point(car: Car, shot: Shot, plug: Plug) -> str | None:
    """What the reading was taken against, by the plug's own names."""
    against = shot.reading.against or shot.session.against
    if against in GROUND_REFERENCES:
        return against
    of, dot, cavity = against.rpartition(".")
    there = car.vehicle.plug(of) if of else plug
    image = _image(car, shot, there, cavity) if there else cavity
    return f"{of}{dot}{image}" if image else None


def _unturned(car: Car, shot: Shot, plug: Plug, cavity: str) -> Fault:
    has = "is not in this book" if plug.housing not in car.housings else "has no counterpart of it"
    return Fault(
        (*shot.place.path, "cavity"),
        f"{plug.id}.{cavity} was counted on the other face and cannot be turned: "
        f'the housing "{plug.housing}" {has}',
        "correct the plug's housing in the vehicle's record",
    )


def pins_at(plug: Plug, cavity: str, trim: str | None) -> list[Pin]:
    """Return the lines that describe a cavity of a plug; of several those that hold for a trim."""
    found = [pin for pin in plug.pins if pin.cavity == cavity]
    return found if len(found) < 2 else [pin for pin in found if _holds_for(pin, trim)]


def _holds_for(pin: Pin, trim: str | None) -> bool:
    return pin.only_if is None or not pin.only_if.trims or trim in pin.only_if.trims


def _fuse_position(car: Car, shot: Shot, name: str) -> Spot | Fault:
    panel, all_of = shot.place.panel, car.vehicle.fuse_positions
    found = [each for each in all_of if each.position == name and each.panel == panel]
    if len(found) == 1:
        return Spot(found[0], shot.reading.against or shot.session.against)
    there = ", ".join(f"{each.position} ({each.panel})" for each in all_of) or "none"
    told = f'the record {car.vehicle.id} has no fuse position "{name}" in a panel "{panel}"'
    return Fault((*shot.place.path, "fuse_position"), told, f"there are: {there}")


def no_session(shot_of: Reading | RecordedSound, sessions: Mapping[str, Session]) -> Fault:
    """Return what is said of a reading whose session the visit does not have."""
    near = nearest(shot_of.session, sessions)
    help_text = f"did you mean {near}?" if near else f"there are: {', '.join(sessions)}"
    told = f'this visit has no part "{shot_of.session}"'
    return Fault((*shot_of.path, "session"), told, help_text)

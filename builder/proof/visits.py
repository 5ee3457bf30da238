"""A vehicle with what its visits measured: readings that stand in files of their own.

Each is put under the pin that it is about, as if it had been typed there; whoever grades, plans or
shows the vehicle sees no difference. What was counted from the other face is turned on the way.
What finds no place is a fault of the visit, and is not counted.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, NamedTuple

from builder.findings import DataPath, Fault
from builder.model.housing import Housing
from builder.model.pin import Pin
from builder.model.reading import Reading
from builder.model.session import Session
from builder.model.vehicle import Vehicle
from builder.model.visit import Visit
from builder.proof.faces.turning import turned
from builder.proof.visit_places import Car, Shot, Spot, is_mirrored, no_session, spot_of

READINGS: Final = "readings"
SESSIONS: Final = "sessions"
RECORDINGS: Final = "recordings"


class Moved(NamedTuple):
    """One session or reading of a visit: where it stands in the vehicle, and in the visit.

    `session` is the id that the session has in the vehicle, where no two have the same. `against`
    is what a reading was taken against, None for a session. `turned` says that cavities have other
    names in the vehicle than in the visit.
    """

    path: DataPath
    visit: int
    own: DataPath
    session: str
    against: str | None = None
    turned: bool = False


@dataclass(slots=True)
class Joined:
    """A vehicle with its visits, where each part of them went, and what found no place.

    `faults` are by visit, with paths of the visit.
    """

    vehicle: Vehicle
    moved: list[Moved] = field(default_factory=list)
    faults: list[tuple[int, Fault]] = field(default_factory=list)


def with_visits(
    vehicle: Vehicle, visits: Sequence[Visit], housings: Mapping[str, Housing]
) -> Joined:
    """Return a vehicle with what was measured in its visits; those withdrawn do not count.

    Args:
        vehicle: As parsed: what stands in it on the other face is turned here too.
        visits: All of this vehicle, in any order: they count by day, then by name.
        housings: The shells of the book by id.
    """
    order = sorted(range(len(visits)), key=lambda at: (visits[at].date, visits[at].id))
    own = replace(turned(vehicle, housings), visits=tuple(visits[at] for at in order))
    pins = (pin for plug in vehicle.plugs for pin in plug.pins)
    counts = {pin.path: len(pin.readings) for pin in pins}
    counts |= {each.path: len(each.readings) for each in vehicle.fuse_positions}
    adding = _Adding(Joined(own), Car(own, housings), counts, defaultdict(list))
    for at in order:
        if visits[at].withdrawn is None:
            adding.add(at, visits[at])
    adding.joined.vehicle = _filled(adding.joined.vehicle, adding.readings)
    return adding.joined


class _Adding(NamedTuple):
    """What visits are added to: how many readings each pin has by now, and which are new."""

    joined: Joined
    car: Car
    counts: dict[DataPath, int]
    readings: defaultdict[DataPath, list[Reading]]

    def add(self, at: int, visit: Visit) -> None:
        """Add one visit: its sessions, then what was measured at each place."""
        sessions = self._sessions(at, visit)
        self._recordings(at, visit, sessions)
        spots = [(shot, spot_of(self.car, shot)) for shot in self._shots(at, visit, sessions)]
        lost = {_counted(shot) for shot, spot in spots if self._is_lost(shot, spot)}
        for shot, spot in spots:
            if isinstance(spot, Fault):
                if (at, spot) not in self.joined.faults:  # once for all that was read there
                    self.joined.faults.append((at, spot))
            elif _counted(shot) not in lost:
                self._put(at, shot, spot)

    def _is_lost(self, shot: Shot, spot: Spot | Fault) -> bool:
        """Whether nothing of its session counts in its plug: a mirrored count that does not fit
        once would not be trusted with the rest."""
        plug = shot.plug
        mirrored = plug and is_mirrored(self.car, shot.visit, shot.session, plug)
        return bool(mirrored) and isinstance(spot, Fault)

    def _sessions(self, at: int, visit: Visit) -> dict[str, Session]:
        """Add the sessions of a visit; returns them as they are in the vehicle, by their own ids.

        Ids are those of one file: where another file has the same, the visit's name goes before.
        """
        known = self.joined.vehicle.sessions
        taken = {session.id for session in known}
        names = [f"{visit.id}-{one.id}" if one.id in taken else one.id for one in visit.sessions]
        paths = [(SESSIONS, len(known) + index) for index, _ in enumerate(names)]
        said = list(zip(visit.sessions, names, paths, strict=True))
        new = [replace(one, id=name, path=path) for one, name, path in said]
        self.joined.moved += [Moved(path, at, one.path, name) for one, name, path in said]
        self.joined.vehicle = replace(self.joined.vehicle, sessions=(*known, *new))
        return {one.id: each for one, each in zip(visit.sessions, new, strict=True)}

    def _recordings(self, at: int, visit: Visit, sessions: Mapping[str, Session]) -> None:
        """Add what its recordings told; pairs are told by channel, so no face turns them."""
        for each in visit.recordings:
            if (session := sessions.get(each.session)) is None:
                self.joined.faults.append((at, no_session(each, sessions)))
                continue
            known = self.joined.vehicle.recordings
            path = (RECORDINGS, len(known))
            new = replace(each, session=session.id, path=path)
            self.joined.vehicle = replace(self.joined.vehicle, recordings=(*known, new))
            self.joined.moved.append(Moved(path, at, each.path, session.id))

    def _shots(self, at: int, visit: Visit, sessions: Mapping[str, Session]) -> Iterator[Shot]:
        told = set[str]()  # once for all readings that name it
        for place in visit.places:
            plug = self.car.vehicle.plug(place.plug) if place.plug else None
            for reading in place.readings:
                if (session := sessions.get(reading.session)) is not None:
                    yield Shot(visit, place, reading, session, plug)
                elif reading.session not in told:
                    told.add(reading.session)
                    self.joined.faults.append((at, no_session(reading, sessions)))

    def _put(self, at: int, shot: Shot, spot: Spot) -> None:
        """Put one reading under the pin or fuse position that it is about."""
        path, place = spot.holder.path, shot.place
        where = (*path, READINGS, self.counts[path])
        self.counts[path] += 1
        mirrored = shot.plug and is_mirrored(self.car, shot.visit, shot.session, shot.plug)
        typed = place.cavity if isinstance(spot.holder, Pin) else None
        typed = None if typed == getattr(spot.holder, "cavity", None) else typed
        name = shot.session.id
        new = replace(
            shot.reading, session=name, path=where, against=spot.against, counted_as=typed
        )
        self.readings[path].append(new)
        moved = Moved(where, at, shot.reading.path, name, spot.against, bool(mirrored))
        self.joined.moved.append(moved)


def _counted(shot: Shot) -> tuple[str, str]:
    """What was counted together: a plug in one session."""
    return shot.plug.id if shot.plug else "", shot.session.id


def _filled(vehicle: Vehicle, new: Mapping[DataPath, list[Reading]]) -> Vehicle:
    """The vehicle with new readings behind those of each pin and fuse position."""
    plugs = tuple(
        replace(plug, pins=tuple(_with(pin, new.get(pin.path, [])) for pin in plug.pins))
        if any(pin.path in new for pin in plug.pins)
        else plug
        for plug in vehicle.plugs
    )
    positions = tuple(
        replace(each, readings=(*each.readings, *new.get(each.path, [])))
        for each in vehicle.fuse_positions
    )
    return replace(vehicle, plugs=plugs, fuse_positions=positions)


def _with(pin: Pin, readings: Sequence[Reading]) -> Pin:
    return replace(pin, readings=(*pin.readings, *readings)) if readings else pin

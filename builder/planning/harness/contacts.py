"""Which contact sits in each cavity of a loom's plugs, and which mates with it for the ring-out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.figures import shown
from builder.model.housing import ContactKind, Housing
from builder.model.parts import Loom
from builder.planning.harness.rows import RingOutRow
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.conductors import Terminal, conductors

_MATE: dict[ContactKind, ContactKind] = {"pins": "sockets", "sockets": "pins"}
_LOOK = "pins or sockets: not on record, look at the face"


class Contact(NamedTuple):
    """A contact: pins or sockets, for which blade [mm], which part. None: not on record."""

    kind: ContactKind | None
    blade_mm: float
    part: str | None

    @property
    def words(self) -> str:
        """Its size and part, as it is ordered: "for blades of 1.5 mm, part TSM-C15"."""
        size = "for blades of" if self.kind == "sockets" else "of"
        part = f"part {self.part}" if self.part else "its part is not on record"
        look = "" if self.kind else f", {_LOOK}"
        return f"{size} {shown(self.blade_mm)} mm, {part}{look}"

    def counted(self, count: int) -> str:
        """So many of it: "2 sockets for blades of 2.8 mm, part TSM-C28"."""
        kind = self.kind or "contacts"
        return f"{count} {kind if count > 1 else kind[:-1]} {self.words}"


def contact_in(housing: Housing, cavity: str) -> Contact:
    """Return the contact that sits in a cavity."""
    blade = housing.blades_mm.get(cavity, housing.blade_mm)
    return Contact(housing.contacts, blade, housing.contact_of(cavity))


def mate_of(housing: Housing, cavity: str, housings: Mapping[str, Housing]) -> Contact:
    """Return the contact that mates with the one in a cavity: that of a housing it plugs into."""
    mates = [
        each for each in housings.values()
        if each.id in housing.mates_with or housing.id in each.mates_with
    ]  # fmt: skip
    parts = (each.contact_of(cavity) for each in mates if cavity in each.cavities)
    own = contact_in(housing, cavity)
    kind = None if own.kind is None else _MATE[own.kind]
    return Contact(kind, own.blade_mm, next((part for part in parts if part), None))


def plugs_of(loom: Loom) -> dict[str, str]:
    """Return the housing of each plug of a loom, its branches' too, by name."""
    found = {end.name: end.housing for end in loom.ends}
    return found | {each.name: each.housing for each in loom.branches if each.housing}


def own_contacts(work: SheetWork) -> Iterator[str]:
    """Yield which contact is crimped for each cavity of each plug that holds a wire."""
    loom = work.plan.use.loom
    spots = {spot for wire in conductors(loom) for spot in (wire.start, wire.to) if spot.cavity}
    for plug, record in plugs_of(loom).items():
        housing = work.housings.get(record)
        cavities = sorted((s for s in spots if s.place == plug), key=lambda spot: spot.by_number)
        if housing is None:
            yield f"{plug}: the contact of {record}: measure; not on record"
            continue
        groups: dict[Contact, list[str]] = defaultdict(list)
        for spot in cavities:
            groups[contact_in(housing, spot.cavity)].append(spot.cavity)
        for contact, here in groups.items():
            yield f"{plug}: {contact.counted(len(here))}, {_cavities_said(here)}"


def ring_contacts(work: SheetWork) -> Iterator[str]:
    """Yield the contacts that the ring-out takes: one for each cavity of the bundle, and of each
    size one that moves where cavities outside the bundle are touched too."""
    for plug, record in plugs_of(work.plan.use.loom).items():
        touched = _cavities(plug, _points(work.ringing))
        held = _cavities(plug, work.bundle)
        housing = work.housings.get(record)
        if not touched | held:
            continue
        if housing is None:
            yield f"contacts into the {plug} ({record}): measure; its record is not in this book"
            continue
        staying: dict[Contact, list[str]] = defaultdict(list)
        moving: dict[Contact, list[str]] = defaultdict(list)
        for cavity in sorted(touched | held, key=lambda at: Terminal(plug, at).by_number):
            of = staying if cavity in held else moving
            of[mate_of(housing, cavity, work.housings)].append(cavity)
        said = [
            *(f"{each.counted(len(at))}, {_cavities_said(at)}" for each, at in _by_size(staying)),
            *(f"{each.counted(1)}, {'moved along ' if len(at) > 1 else ''}{_cavities_said(at)}"
              for each, at in _by_size(moving)),
        ]  # fmt: skip
        yield f"contacts that go into the {plug} ({record}): {'; '.join(said)}"


def lead_count(work: SheetWork) -> int:
    """Return how many contacts the ring-out takes, each with its two test leads."""
    count = 0
    for plug, record in plugs_of(work.plan.use.loom).items():
        touched, held = _cavities(plug, _points(work.ringing)), _cavities(plug, work.bundle)
        housing = work.housings.get(record)
        if housing is not None:
            moved = {mate_of(housing, each, work.housings) for each in touched - held}
            count += len(held) + len(moved)
    return count


def _by_size(groups: Mapping[Contact, list[str]]) -> list[tuple[Contact, list[str]]]:
    return sorted(groups.items(), key=lambda item: item[0].blade_mm)


def _cavities_said(cavities: Sequence[str]) -> str:
    return f"{'cavity' if len(cavities) == 1 else 'cavities'} {', '.join(cavities)}"


def _points(ringing: Iterable[RingOutRow]) -> Iterator[str]:
    for row in ringing:
        yield row.probe
        yield row.other


def _cavities(plug: str, points: Iterable[str]) -> set[str]:
    return {point.removeprefix(f"{plug}.") for point in points if point.startswith(f"{plug}.")}

"""Which contact sits in each cavity of a loom's plugs, and which mates with it for the ring-out."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple, TypeVar

from builder.figures import shown
from builder.model.housing import ContactKind, Housing
from builder.model.parts import Loom
from builder.planning.harness.rows import RingOutRow
from builder.planning.harness.sheet_work import SheetWork
from builder.planning.looms.conductors import Terminal, conductors

_Of = TypeVar("_Of")

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


class PlugContacts(NamedTuple):
    """The test contacts into one plug: with one lead, by their cavities; with two, how many; and
    the other cavities that wires are found at, into which the same go, one at a time."""

    plug: str
    housing: str
    single: Mapping[Contact, Sequence[str]]
    double: Mapping[Contact, int]
    again: Mapping[Contact, Sequence[str]]

    @property
    def words(self) -> str:
        """Both kinds, smallest first, with the cavities of those that stay in."""
        one = [f"{c.counted(len(at))}, {_cavities_said(at)}" for c, at in _by_size(self.single)]
        two = [contact.counted(count) for contact, count in _by_size(self.double)]
        kinds = (
            (f"with one lead, {'; '.join(one)}", one),
            (f"with two leads, {'; '.join(two)}", two),
        )
        said = "; ".join(words for words, found in kinds if found)
        more = [
            f"that of {shown(contact.blade_mm)} mm in {_cavities_said(at)}"
            for contact, at in _by_size(self.again)
        ]
        used = f"; used again, with one lead, one wire at a time: {', '.join(more)}" if more else ""
        return f"contacts that go into the {self.plug} ({self.housing}): {said}{used}"


def plug_contacts(work: SheetWork) -> Iterator[PlugContacts]:
    """Yield the contacts that the ring-out takes, plug by plug, of each housing on record.

    One with a single lead for each cavity of the bundle, since there all are in at once. What must
    be joined is measured with two leads on one contact: of each size as many as a line takes.
    """
    for plug, record in plugs_of(work.plan.use.loom).items():
        housing = work.housings.get(record)
        held = sorted(_cavities(plug, work.bundle), key=lambda at: Terminal(plug, at).by_number)
        lines = [_cavities(plug, (row.probe, row.other)) for row in work.ringing if row.joined]
        if housing is None or not (held or any(lines)):
            continue
        staying: dict[Contact, list[str]] = defaultdict(list)
        for cavity in held:
            staying[mate_of(housing, cavity, work.housings)].append(cavity)
        moving: Counter[Contact] = Counter()
        for line in lines:
            moving |= Counter(mate_of(housing, each, work.housings) for each in line)
        yield PlugContacts(plug, record, staying, moving, _again(work, plug, housing, held))


def _again(
    work: SheetWork, plug: str, housing: Housing, held: Sequence[str]
) -> Mapping[Contact, Sequence[str]]:
    """The cavities with a wire that no contact stays in: what finds the wire there is one that
    stays in another later."""
    spots = {s for wire in conductors(work.plan.use.loom) for s in (wire.start, wire.to)}
    found: dict[Contact, list[str]] = defaultdict(list)
    for spot in sorted(spots, key=lambda each: each.by_number):
        if spot.place == plug and spot.cavity and spot.cavity not in held:
            found[mate_of(housing, spot.cavity, work.housings)].append(spot.cavity)
    return found


def ring_contacts(work: SheetWork) -> Iterator[str]:
    """Yield the contacts that the ring-out takes, one line a plug."""
    known = {each.plug: each for each in plug_contacts(work)}
    for plug, record in plugs_of(work.plan.use.loom).items():
        if plug in known:
            yield known[plug].words
        elif work.housings.get(record) is None and _cavities(plug, _points(work.ringing)):
            yield f"contacts into the {plug} ({record}): measure; its record is not in this book"


def lead_counts(work: SheetWork) -> tuple[int, int]:
    """Return how many test contacts have one lead, and how many have two."""
    found = [*plug_contacts(work)]
    single = sum(len(at) for each in found for at in each.single.values())
    return single, sum(count for each in found for count in each.double.values())


def zero_sizes(work: SheetWork) -> list[float]:
    """Return the sizes of blade [mm] that lines on ohms touch: each has a zero of its own."""
    found: set[float] = set()
    for plug, record in plugs_of(work.plan.use.loom).items():
        housing = work.housings.get(record)
        ohms = [row for row in work.ringing if row.joined and row.at_a is None]
        if housing is not None:
            found |= {contact_in(housing, at).blade_mm for at in _cavities(plug, _points(ohms))}
    return sorted(found)


def by_plug(work: SheetWork, points: Sequence[str]) -> Iterator[str]:
    """Yield the cavities among some points, plug by plug: "radio end, cavities 1 to 16"."""
    for plug in plugs_of(work.plan.use.loom):
        held = sorted(_cavities(plug, points), key=lambda at: Terminal(plug, at).by_number)
        if held:
            yield f"{plug}, {_cavities_said(held)}"


def off_plugs(work: SheetWork) -> list[str]:
    """Return the points of the bundle that are no cavity: ends that lie bare."""
    plugs = plugs_of(work.plan.use.loom)
    return [each for each in work.bundle if each.rpartition(".")[0] not in plugs]


def one_ended(work: SheetWork) -> list[str]:
    """Return the cavities of the bundle whose wire comes out nowhere else: what is closed off."""
    rung = {*_points(row for row in work.ringing if row.joined)}
    bare = off_plugs(work)
    return [each for each in work.bundle if each not in rung and each not in bare]


def _by_size(groups: Mapping[Contact, _Of]) -> list[tuple[Contact, _Of]]:
    return sorted(groups.items(), key=lambda item: item[0].blade_mm)


def _cavities_said(cavities: Sequence[str]) -> str:
    return f"{'cavity' if len(cavities) == 1 else 'cavities'} {', '.join(runs_of(cavities))}"


def runs_of(cavities: Sequence[str]) -> list[str]:
    """Return cavities with each run of three or more as its ends.

    >>> runs_of(["1", "2", "3", "9", "a"])
    ['1 to 3', '9', 'a']
    """
    runs: list[list[str]] = []
    for each in cavities:
        follows = runs and each.isdigit() and runs[-1][-1].isdigit()
        if follows and int(each) == int(runs[-1][-1]) + 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    return [x for run in runs for x in (run if len(run) < 3 else [f"{run[0]} to {run[-1]}"])]


def _points(ringing: Iterable[RingOutRow]) -> Iterator[str]:
    for row in ringing:
        yield row.probe
        yield row.other


def _cavities(plug: str, points: Iterable[str]) -> set[str]:
    return {point.removeprefix(f"{plug}.") for point in points if point.startswith(f"{plug}.")}

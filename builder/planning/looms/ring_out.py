"""The ring-out of a loom: the fewest measurements that find what can be wrong with it.

Two kinds suffice. *Joined*: two points of one net, and a limit. *Apart*: one net against all others
tied together, and nothing may be read. A net of n points needs n − 1 of the first kind: with fewer,
its points fall into two groups that no measurement joins, and a wire open between them is not
found. N nets need N − 1 of the second kind: with fewer, two nets are left out, and a short between
them is not found. Together they say exactly what is joined to what, so that wires that changed
places, or a plug filled from its other face, are found as well. Halving all nets against each other
again and again would need fewer of the second kind, and a new bundle and no name of a wire for
each; every net against all others is one bundle and one clip that moves.

A measurement serves several purposes and stands in the list once: that a broken wire is open from
the radio's end to the car's is seen when its half is held against everything else.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal, NamedTuple

from builder.model.parts import Loom
from builder.model.parts.loom_wires import LoomCarries, Point
from builder.planning.looms.conductors import CABLE, Conductor, Terminal
from builder.planning.looms.cutting import Cut, cut_loom
from builder.planning.looms.nets import Net, nets

SIGNAL_MOST_OHM: Final = 0.3
SPEAKER_MOST_MV: Final = 100.0
SUPPLY_MOST_MV: Final = 300.0
TEST_CURRENT_A: Final = 1.0
"""Limits of a wire of a loom, its two crimps with it: ohms with those of the leads taken off; drop
at 1 A; drop at its fuse's amperes, so that 1 A may drop 300 mV divided by them. Common practice, no
source. Two legs of 0.3 Ω on 4 Ω would cost 20·lg(4.6/4) = 1.21 dB, so speakers have their own."""

SUPPLY_MOST_V: Final = 5.0
OPEN_LEAST_MOHM: Final = 10.0
"""What a bench supply is let go up to at an open line; what counts as open. Common practice, no
source."""

Why = Literal["through", "to cable", "to branch", "joined", "broken", "closed off", "apart"]
"""What a measurement is for: a wire goes through; an end reaches the cable or its branch; points
are joined by design; a broken wire is open from end to end; an end that was closed off is open to
everything; a net is joined to no other."""


class Use(NamedTuple):
    """What a wire is used for in a job, and the amperes of the fuse that feeds it, if known."""

    carries: LoomCarries
    fuse_a: float | None = None


class Limit(NamedTuple):
    """The most that may be read; None where nobody knows the fuse that sets it."""

    most: float | None
    unit: Literal["Ω", "mV"]
    at_a: float | None = None


@dataclass(frozen=True, slots=True)
class Measurement:
    """One measurement: one probe on `at`, the other on `against`, which are tied together.

    With a limit they must be joined, and read no more than it; without one nothing may be read.
    """

    why: Why
    at: Terminal
    against: tuple[Terminal, ...]
    limit: Limit | None = None


def ring_out(
    loom: Loom, cuts: Sequence[Cut], uses: Mapping[Point, Use], taps: Sequence[Point] = ()
) -> tuple[Measurement, ...]:
    """Return what to measure on a loom before it goes into a car.

    Args:
        loom: The loom as it is recorded.
        cuts: The wires that are cut; all others stay.
        uses: What cavities are used for, where a job knows better than the loom's record.
        taps: The cavities beside whose wire a cable is joined.

    Raises:
        ValueError: a cut names no wire, or one of several in a cavity.
    """
    harness = cut_loom(loom, cuts, taps)
    ends = [end.name for end in loom.ends]
    found = nets(harness.wires, ends, harness.stubs)
    return (*_all_joined(found, ends, uses), *_all_apart(found, ends))


def _all_joined(
    found: Sequence[Net], ends: Sequence[str], uses: Mapping[Point, Use]
) -> Iterator[Measurement]:
    fed = _fed_through_a(found, ends)
    for net in found:
        first, *others = net.terminals
        for other in others:
            way = net.between(first, other)
            use = _returned(_told(net, uses) or _recorded(way), fed.get(other.place))
            yield Measurement(_joins(first, other, ends), first, (other,), limit_of(way, use))


def _fed_through_a(found: Sequence[Net], ends: Sequence[str]) -> dict[str, float]:
    """The amperes that the fuses of a loom let into each of its branches, all together; a branch
    that a supply reaches without a fuse of the loom has none."""
    amperes: dict[str, list[float | None]] = {}
    for net in found:
        first, *others = net.terminals
        for other in (each for each in others if each.place not in ends):
            way = net.between(first, other)
            fuses = [wire.fuse_a for wire in way if wire.fuse_a is not None]
            if any(wire.carries == "supply" for wire in way):
                amperes.setdefault(other.place, []).append(min(fuses, default=None))
    return {
        place: sum(each for each in known if each is not None)
        for place, known in amperes.items()
        if None not in known
    }


def _returned(use: Use, fed_a: float | None) -> Use:
    """A ground of a branch carries back what its fuses let in, and no more."""
    if use.carries != "ground" or fed_a is None:
        return use
    return Use("ground", fed_a if use.fuse_a is None else min(fed_a, use.fuse_a))


def _told(net: Net, uses: Mapping[Point, Use]) -> Use | None:
    told = (uses.get(Point(end.place, end.cavity)) for end in net.terminals)
    return next((each for each in told if each is not None), None)


def _joins(first: Terminal, other: Terminal, ends: Sequence[str]) -> Why:
    if {first.place, other.place} <= {*ends}:
        return "through" if first.place != other.place else "joined"
    if first.place in ends:
        return "to cable" if other.place == CABLE else "to branch"
    return "joined"


def _recorded(way: Sequence[Conductor]) -> Use:
    """What wires are used for by the record of their loom alone."""
    carried = {wire.carries for wire in way}
    return Use(next((each for each in _HEAVIEST if each in carried), "signal"))


def limit_of(way: Sequence[Conductor], use: Use) -> Limit:
    """Return what may be read over wires of such a use.

    A fuse among them lets no more through than its own; without one that of the use counts.
    """
    if use.carries in ("supply", "ground"):
        fuses = [wire.fuse_a for wire in way if wire.fuse_a is not None]
        fuse_a = min(fuses, default=use.fuse_a)
        return Limit(SUPPLY_MOST_MV / fuse_a if fuse_a else None, "mV", TEST_CURRENT_A)
    if use.carries == "speaker":
        return Limit(SPEAKER_MOST_MV, "mV", TEST_CURRENT_A)
    return Limit(SIGNAL_MOST_OHM, "Ω")


_HEAVIEST: tuple[LoomCarries, ...] = ("supply", "ground", "speaker", "control", "signal", "data")


def _all_apart(found: Sequence[Net], ends: Sequence[str]) -> Iterator[Measurement]:
    """Every net against all others, but one: what shorts it shorts one of the others too."""
    whys = [_why_apart(net, found, ends) for net in found]
    spared = len(whys) - 1 - whys[::-1].index("apart") if "apart" in whys else len(whys) - 1
    for at, (net, why) in enumerate(zip(found, whys, strict=True)):
        if at != spared:
            others = tuple(each.terminals[0] for each in found if each is not net)
            yield Measurement(why, net.terminals[0], others)


def _why_apart(net: Net, found: Sequence[Net], ends: Sequence[str]) -> Why:
    """A wire is broken when its cavity is wired at two ends and they are two nets."""
    for at, end in enumerate(ends[1:], 1):
        for cavity in net.cavities(end):
            before = (each for each in found if each is not net)
            if any(cavity in each.cavities(first) for each in before for first in ends[:at]):
                return "broken"
    return "closed off" if len(net.terminals) == 1 else "apart"

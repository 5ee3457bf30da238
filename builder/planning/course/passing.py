"""The acts in which cables go through a bulkhead, and the way is closed again behind them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.model.access import Passage
from builder.model.job import CablePass
from builder.model.job.places import Seal
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.planning.car.access import GROMMET_WORDS
from builder.planning.car.route_zones import zones_at_pass
from builder.planning.car.supply_way import unsaid_supply_way
from builder.planning.course.car_states import CABLES, DEAD
from builder.planning.course.job_acts import JobWork
from builder.planning.course.model import Act, Said, among, needs
from builder.planning.course.trade import PASSED, SEALED
from builder.planning.words import SUPPLY_WAY

_OPEN = "nobody decided how edge and water are kept off the cable: nothing passes before"
_EDGE = "no bare edge on the cable: a grommet in the sheet, or a sleeve of its own"
_CLOSED: dict[Seal, str] = {
    "grommet": "its grommet sits all round and is sealed around the cable",
    "sealant": "sealant all round the cable, which lies in its own sleeve",
    "unknown": "how is not decided",
}
_DRIP: dict[Tri, str] = {
    "yes": "; on the wet side the cable hangs lower than the opening",
    "no": "; no drip loop: the sealant alone keeps the water off",
    "unknown": "",
}


def passing_acts(work: JobWork) -> Iterator[Act]:
    """Yield how each cable goes through, before it is cut, and how the way is closed after that."""
    minutes = work.bay.defaults.hand_hole_min
    yield from _unsaid(work)
    for at, one in enumerate(work.parts.job.passes):
        passage = passage_of(work.parts.vehicle, one)
        near = zones_at_pass(work.parts.vehicle, one)
        wanted = {**DEAD, **work.open, **(needs(battery="waited") if near else {})}
        said = Said(
            f"{one.through}: take {' and '.join(one.carries)} through",
            tuple(_told(passage) if passage else _hole(work, one)),
            _EDGE, "" if one.closed else _OPEN, hazards_at(work.parts.vehicle, one),
        )  # fmt: skip
        yield Act(f"pass {at}", "build", said, wanted, frozenset({PASSED}), minutes=minutes)
        yield Act(
            f"seal {at}", "build",
            Said(f"{one.through} closed: {_CLOSED[one.seal]}{_DRIP[one.drip_loop]}"),
            {**wanted, CABLES: among("laid")}, frozenset({SEALED}), minutes=minutes,
        )  # fmt: skip


def passage_of(vehicle: Vehicle, one: CablePass) -> Passage | None:
    """Return the way of the car's record that is used; None for a hole of the job."""
    return next((each for each in vehicle.passages if each.name == one.through), None)


def hazards_at(vehicle: Vehicle, one: CablePass) -> str:
    """Return what is to be minded at a way through, as the car's record says."""
    passage = passage_of(vehicle, one)
    zones = [f"restraint part near it: {zone}" for zone in zones_at_pass(vehicle, one)]
    if zones:
        zones += [*vehicle.safety.cautions, _NEAR]
    return "; ".join((*(passage.hazards if passage else ()), *zones))


_NEAR = "no tool and no hand leans on it, no cable is led over or tied to it"


def _unsaid(work: JobWork) -> Iterator[Act]:
    """A supply that comes through a bulkhead, nobody said where: nothing passes before."""
    way = unsaid_supply_way(work.parts.job, work.parts.vehicle)
    if way is None:
        return
    wanted, minutes = {**DEAD, **work.open}, work.bay.defaults.hand_hole_min
    told = tuple(f"on record: {each}" for each in way.on_record) or (_NONE_LISTED,)
    said = Said(f"{SUPPLY_WAY}: take supply through", told, _EDGE,
                f"{_UNSAID}; choose one, write it into the job and plan again")  # fmt: skip
    yield Act("pass supply", "build", said, wanted, frozenset({PASSED}), minutes=minutes)
    closed = Said(f"{SUPPLY_WAY} closed: how is not decided", blocked=_OPEN)
    laid = {**wanted, CABLES: among("laid")}
    yield Act("seal supply", "build", closed, laid, frozenset({SEALED}), minutes=minutes)


_NONE_LISTED = "on record: none; look for a grommet of the car before anybody drills"
_UNSAID = "nobody said where the supply goes through the bulkhead"


def _told(passage: Passage) -> Iterator[str]:
    """What the car's record says of a way through."""
    yield f"where: {passage.where}, between {' and '.join(passage.between)}"
    yield f"what closes it today: {GROMMET_WORDS[passage.grommet]}"
    most = f"up to {shown(passage.free_mm)} mm over its insulation: measure the cable first"
    room = "nobody measured" if passage.free_mm is None else most
    yield f"the cable that it still takes: {room}"


def _hole(work: JobWork, one: CablePass) -> Iterator[str]:
    """What the job says of a hole of its own."""
    for hole in work.parts.job.holes:
        if hole.where == one.through:
            yield f"the hole of {shown(hole.size_mm)} mm; behind it {hole.behind or 'not known'}"

"""The acts in which cables are laid, cut and labelled, and every end that stays open is closed."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.bay.bands import JOINT_PULL_N
from builder.planning.car.seats import has_rails, seats_over, travel_words
from builder.planning.circuit.board import SLEEVE, WRAP
from builder.planning.circuit.index import CircuitIndex
from builder.planning.course import trade
from builder.planning.course.car_states import CABLES, DEAD
from builder.planning.course.job_acts import JobWork, act
from builder.planning.course.model import Act, Said
from builder.planning.tables import SIGNAL_APART
from builder.planning.views.cut_rows import along_words, pieces_of
from builder.planning.views.lead_lines import leads_of
from builder.planning.views.loom_joints import (
    closed_at_table,
    looms_of,
    made_in,
    pieces_at_table,
)
from builder.planning.views.way_back import TAPED

_LAY = "lay every cable dry, everything in its final place, then cut"
_LABELS = (
    "label every piece before it is stripped, as the labels to cut out say: both ends, a cable "
    "also mid-way"
)
_JOINTS = (
    "at every joint: sleeve on first, then crimp or solder, sleeve over it, the joints of a cable "
    "30 to 40 mm apart, then tape; nothing that bites through insulation"
)
_WRAPPED = f"; over a wire that stays whole no sleeve can be slid: {TAPED}"
_MAKE_LEADS = (
    "make these line leads at the bench: centre to centre, shield to shield, then ring each out; "
    "neither conductor meets the other"
)


def laying_acts(work: JobWork) -> Iterator[Act]:
    """Yield what is laid and labelled, and how every joint is made."""
    house, routes = work.bay.defaults, work.parts.job.routes
    metres = sum(route.length_m for route in routes)
    yield act(
        "lay", "build", Said(f"{_LAY}{_cut_before(work.index)}",
                            (*_ways(work.index), *_apart(work), *_clear_of_seats(work))),
        trade.LAID, wanted={**DEAD, **work.open}, does={CABLES: "laid"},
        minutes=metres * house.hand_lay_a_metre_min,
    )  # fmt: skip
    yield act(
        "label", "build", Said(_LABELS), trade.LABELLED, minutes=work.labels * house.hand_label_min
    )
    by_hand = [
        f"{name}: {shown(wire.length_m or 0.0)} m"
        for name, wire in leads_of(work.index).items()
        if wire.made_here
    ]
    if by_hand:
        said = Said(_MAKE_LEADS, tuple(by_hand), "under 1 Ω through, open between")
        minutes = 2 * house.hand_joint_min * len(by_hand)
        yield act("make line leads", "build", said, trade.LABELLED, minutes=minutes)
    pull = f"no joint parts at a pull of {JOINT_PULL_N:.0f} N on 18 AWG"
    said = Said(_JOINTS + (_WRAPPED if _is_wrapped(work.index) else ""), gate=pull)
    yield act("joint rules", "build", said, trade.LABELLED)


def _ways(index: CircuitIndex) -> Iterator[str]:
    """The way of each piece, those of one way together; of a short one between neighbours none."""
    alike: dict[str, list[str]] = {}
    for name, wires in pieces_of(index).items():
        wire = wires[0]
        if wire.loom or (wire.length_m or 0.0) <= AT_HAND_M:
            continue
        along = along_words(wire) or f"; {_UNSAID}"
        alike.setdefault(f"{wire.from_place} to {wire.to_place}{along}", []).append(name)
    for said, names in alike.items():
        yield f"{', '.join(names)}: {said}"


def _apart(work: JobWork) -> Iterator[str]:
    """What keeps hum out, where signal and supply are both laid."""
    carried = {route.carries for route in work.parts.job.routes}
    if "signal" in carried and work.parts.job.supply.supply_lead_m is not None:
        yield SIGNAL_APART


AT_HAND_M = 1.0
"""A piece so short lies between devices that stand side by side. Common practice, no source. [m]"""
_UNSAID = "its way is on no record: write it down ____ and send it in with the readings"


def _clear_of_seats(work: JobWork) -> Iterator[str]:
    """What lies under a seat keeps clear of all its ways."""
    for seat in seats_over(work.parts.vehicle, work.parts.job):
        clear = (
            f"clear of its rails {travel_words(seat)}"
            if has_rails(seat)
            else "clear of where it is held, of what folds and of the floor that it stands on"
        )
        yield f"under the {seat.name}: {clear}"


def _is_wrapped(index: CircuitIndex) -> bool:
    """Whether a joint away from the table lies beside a wire that stays whole."""
    at_table = {joint.id for unit in looms_of(index) for joint in made_in(index, unit)}
    return any(x.closed_by == WRAP for x in index.circuit.joints if x.id not in at_table)


def _cut_before(index: CircuitIndex) -> str:
    """The pieces that were cut at the table: they hang on a loom when the car is opened."""
    pieces = pieces_at_table(index)
    if not pieces:
        return ""
    said = f"{', '.join(pieces[:-1])} and {pieces[-1]} were" if pieces[1:] else f"{pieces[0]} was"
    return f"; {said} cut at the table"


def closing_off_acts(work: JobWork) -> Iterator[Act]:
    """Yield the ends that stay open on purpose, each closed off by itself."""
    ends = tuple(
        each.what
        for each in work.index.circuit.open_ends
        if each.closed_by == SLEEVE and not closed_at_table(work.index, each)
    )
    if ends:
        said = Said("close off each of these by itself, never two together", ends)
        wanted = {**DEAD, **work.open}
        yield act("close off", "build", said, trade.CLOSED, wanted=wanted, minutes=len(ends) * 1.0)

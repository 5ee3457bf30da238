"""The acts around grounds and cables that no joint asks for: bare metal, paint over it, ties."""

from __future__ import annotations

from collections.abc import Iterator

from builder.figures import shown
from builder.planning.circuit.board import PAINTED
from builder.planning.circuit.devices import hold_up_place, tied_holders
from builder.planning.circuit.hold_up import HOLD_UP_PARTS, HOLD_UP_TIES
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.supply_links import GROUND_POINT
from builder.planning.course import trade
from builder.planning.course.job_acts import JobWork, act
from builder.planning.course.model import Act, Said

_BARE = (
    "ground point chosen: metal of the body, beside the amplifier's ground as it will lie; no "
    "seat bolt, no bracket, no stud of a restraint or of the fuel tank; scraped bright as wide as "
    "the ring"
)
_WHERE = (
    "its place is on no record: write it down here ____ and send it in with the readings",
    "a new hole only where somebody has looked behind",
)
_LOOKED = "somebody has looked behind it"
_TIED = (
    "tie the cables where they lie, every {} m and at each bend, their ends left free as far as "
    "they are joined; clear of pedals, steering shaft, rails and what gets hot; no tie round a "
    "yellow sleeve or a brake pipe; cut ties flush, a stump cuts hands and insulation"
)


_HOLDER_TIED = "its leads joined: holder of the {} ({}) tied on either side, its lid in reach"


def ground_point_acts(work: JobWork) -> Iterator[Act]:
    """Yield the choice of the ground point, where a ring of the job goes on one."""
    if GROUND_POINT in work.index.terminals:
        yield act(
            "ground point", "build", Said(_BARE, _WHERE, _LOOKED), trade.FIXED,
            wanted={**work.batteries.dead, **work.open},
            minutes=work.bay.defaults.hand_terminal_min,
        )  # fmt: skip


def tying_acts(work: JobWork) -> Iterator[Act]:
    """Yield the ties, once every piece is cut and has its label; and paint over bare metal, once
    its joint has read well."""
    wanted = {**work.batteries.dead, **work.open}
    metres = sum(route.length_m for route in work.parts.job.routes)
    if metres:
        spacing = work.bay.defaults.tie_spacing_m
        tied = tuple(_HOLDER_TIED.format(x.id, x.place) for x in tied_holders(work.index))
        said = Said(_TIED.format(shown(spacing)), tied)
        minutes = 0.5 * metres / spacing
        yield act("tie", "build", said, trade.TIED, wanted=wanted, minutes=minutes)
    over = painted_places(work.index)
    if over:
        text = "paint or grease over every joint on bare metal, now that it has read well"
        said = Said(text, tuple(f"at: {place}" for place in over))
        minutes = 1.0 * len(over)
        yield act("paint", "build", said, trade.PAINTED_OVER, wanted=wanted, minutes=minutes)


def hold_up_acts(work: JobWork) -> Iterator[Act]:
    """Yield what holds capacitor, resistor and diodes, once their leads are joined: a lead that
    carries its part breaks where it leaves it."""
    place = hold_up_place(work.index)
    if place is not None:
        yield act(
            "hold-up held", "build", Said(f"{HOLD_UP_PARTS} ({place}): {_PARTS_TIED}"),
            trade.PARTS_TIED, wanted={**work.batteries.dead, **work.open}, minutes=_PARTS_MIN,
        )  # fmt: skip


_PARTS_TIED = (
    f"side by side, {HOLD_UP_TIES} ties to what does not move, the resistor free, it gets warm; no "
    "lead drawn tight, none bent where it leaves its part"
)
_PARTS_MIN = 3.0
"""Two ties and a look at the leads. Common practice, no source. [min]"""


def painted_places(index: CircuitIndex) -> tuple[str, ...]:
    """Return where joints lie on bare metal that is painted or greased over."""
    places = (joint.place for joint in index.circuit.joints if joint.closed_by == PAINTED)
    return tuple(dict.fromkeys(places))

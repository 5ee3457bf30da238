"""A tap plan as a circuit: the job as far as a car and a converter alone decide it.

The amplifier is one that nobody has chosen. What follows from it alone, a size, a length, a main
fuse, is left open; every joint of the plan is there.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.book import Shelf
from builder.model.job import Job, JobAmplifier, JobCar, JobSupply
from builder.model.parts import Converter
from builder.model.parts.amplifier_inputs import Socket
from builder.model.vehicle import Vehicle
from builder.planning.cables.laying import Laying
from builder.planning.car.line_feeds import ChannelFeed, LineFeed
from builder.planning.car.pairs import Pair, find_pairs
from builder.planning.car.selection import LineOutput, Selection, Tap
from builder.planning.circuit.make_circuit import make_circuit
from builder.planning.circuit.model import Circuit
from builder.planning.circuit.work import CircuitWork
from builder.planning.feeds.converter_feed import AT_THE_AMPLIFIER
from builder.planning.job.outputs import in_order, outputs_of
from builder.planning.levels.fitted_pads import fitted_pads
from builder.planning.levels.level_survey import taps_of_sub_sum
from builder.planning.plan import Plan
from builder.planning.work_pack import JobParts

THE_AMPLIFIER = "amplifier"
"""What the amplifier of a plan is called."""
_LATER = "not decided"


def plan_circuit(plan: Plan, parts: JobParts) -> Circuit | None:
    """Return what a plan joins, as a circuit; None for a plan that joins nothing.

    Args:
        plan: The plan of a car and a converter, as the gate left it.
        parts: What `plan_parts` makes of them.
    Raises:
        StopIteration: the plan names a pin that is in no pair of this car.
    """
    if plan.kind != "tap_plan":
        return None
    defaults = parts.shelf.defaults
    selection = _selection(plan, parts)
    return make_circuit(CircuitWork(
        parts=parts, plan=plan, selection=selection, laying=Laying((), ()), loads={}, leads=(),
        lead_sizes=(), runs=(), hold_up=None, pads=fitted_pads(plan.levels, parts.converter),
        stand_ins={}, feed=AT_THE_AMPLIFIER, defaults=defaults,
    ))  # fmt: skip


def plan_parts(vehicle: Vehicle, converter: Converter, shelf: Shelf) -> JobParts:
    """Return the job that nobody has written: this car, this converter, and nothing chosen."""
    job = Job(
        id=f"{vehicle.id}--{converter.id}",
        data=vehicle.data,
        title=f"{vehicle.title} with {converter.name}",
        vehicle=vehicle.id,
        car=JobCar(tag="", answers=()),
        wanted="",
        protect=(),
        converter=converter.id,
        converter_place=_LATER,
        amplifiers=(JobAmplifier(name=THE_AMPLIFIER, part="", place=_LATER),),
        speakers=(),
        treatments=None,
        routes=(),
        cables=(),
        supply=_supply(),
        other_turn_on_loads=(),
    )
    return JobParts(job, vehicle, converter, {}, (), shelf)


def _supply() -> JobSupply:
    return JobSupply(
        supply_lead_m=None, ground_lead_m=None, fuse_to_battery_m=None, fuse_family="maxi",
        material="unknown", ground_point="body_side", listening="heavy",
    )  # fmt: skip


def _selection(plan: Plan, parts: JobParts) -> Selection:
    taps = tuple(_taps(plan, find_pairs(parts.vehicle, parts.shelf.defaults)))
    outputs = tuple(_outputs(parts.converter, taps))
    numbers = range(1, len(outputs) + 1)
    return Selection(
        plan.purpose,
        taps,
        outputs=outputs,
        leads=tuple(LineFeed(at, THE_AMPLIFIER, Socket(at)) for at in numbers),
        channels=tuple(ChannelFeed(THE_AMPLIFIER, at, (Socket(at),)) for at in numbers),
    )


def _taps(plan: Plan, pairs: tuple[Pair, ...]) -> Iterator[Tap]:
    """The taps that a plan's feeds were made from, one for each input."""
    for number, legs in plan.feeds_by_input.items():
        paths = {feed.path for feed in legs}
        pair = next(pair for pair in pairs if {leg.pin.path for leg in pair.legs} == paths)
        yield Tap(number, pair, legs[0].treatment, legs[0].group)


def _outputs(converter: Converter, taps: tuple[Tap, ...]) -> tuple[LineOutput, ...]:
    """One line output for each group of taps, and the sum of both fronts where one is to spare;
    all on one output of a converter that has fewer outputs than there are groups.
    """
    groups: dict[int, list[Tap]] = {}
    for tap in taps:
        groups.setdefault(tap.group, []).append(tap)
    if len(groups) > converter.outputs:
        return tuple(outputs_of(converter, taps, sides=False)[0])
    own = [LineOutput(tuple(group), joined=len(group) > 1) for group in groups.values()]
    summed = taps_of_sub_sum(converter, taps)
    spare = [LineOutput(summed, joined=True)] if summed and len(own) < converter.outputs else []
    return in_order([*own, *spare])

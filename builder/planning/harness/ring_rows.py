"""The ring-out of a job's loom, line by line, with the cables that are joined to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from builder.model.house_defaults import HouseDefaults
from builder.model.parts.loom_wires import LoomCarries
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.loom_wires import free_end
from builder.planning.circuit.model import CircuitWire
from builder.planning.circuit.terminal_names import loom_terminal
from builder.planning.harness.cables_of import joined_wires, other_cores
from builder.planning.harness.core_ohms import cable_most_ohm, least_ohms
from builder.planning.harness.planned import LoomPlan
from builder.planning.harness.rows import LoomCableRow, RingOutRow
from builder.planning.looms.conductors import Terminal
from builder.planning.looms.ring_out import Limit, Measurement, Use, Why, limit_of, ring_out
from builder.planning.views.names import side_fuses, wire_words
from builder.planning.words import LinkClass

WHYS: dict[Why, str] = {
    "through": "goes through",
    "to cable": "reaches its cable",
    "to branch": "reaches its branch",
    "joined": "is joined by design",
    "broken": "does not run through",
    "closed off": "is closed off",
    "apart": "is joined to no other",
}
CORE_WHOLE: Final = "is whole: the car needs it"
CORE_APART: Final = "is joined to nothing here"
"""What a line is for, of a core of a cable that nothing of the loom is joined to."""
FAR_END: Final = "far end of "


def ring_rows(
    plan: LoomPlan,
    index: CircuitIndex,
    cables: Sequence[LoomCableRow],
    defaults: HouseDefaults,
) -> tuple[RingOutRow, ...]:
    """Return every measurement; in the limits of one over a cable is the cable's own share."""
    found = sorted(measurements(plan), key=_in_order)
    rows = [_row(plan, index, each, defaults) for each in found]
    cores = other_cores(plan, index)
    whole = [_whole_row(index, each, defaults) for each in cores if index.link_of(each)]
    joined, apart = ([row for row in rows if row.joined == of] for of in (True, False))
    others = len(bundle_of(plan, index)) - 1
    told = (*joined, *whole, *apart, *(_core_row(each, others) for each in cores))
    mine = least_ohms((*joined_wires(plan, index), *cores), cables, defaults)
    return tuple(replace(row, number=at, least=_least(row, mine)) for at, row in enumerate(told, 1))


def _least(row: RingOutRow, ohms: Mapping[str, float]) -> float | None:
    """The millivolts that its cable alone makes: a meter without its clips shows less."""
    ohm = ohms.get(row.other.removeprefix(FAR_END))
    if row.at_a is None or row.of_cable is None or ohm is None:
        return None
    return round(1000 * ohm * row.at_a, 2)


def _core_row(core: CircuitWire, others: int) -> RingOutRow:
    """A core of a cable that nothing of the loom is joined to."""
    return RingOutRow(
        number=1,
        what_for=CORE_APART,
        probe=_far_end(core),
        other=_all_others(others),
        joined=False,
        most=None,
        unit="",
        at_a=None,
        of_cable=None,
    )


def _whole_row(index: CircuitIndex, core: CircuitWire, defaults: HouseDefaults) -> RingOutRow:
    """Such a core from end to end, where the car needs it: the limit of a wire of its use."""
    limit, share = limit_of((), _use(index, core)), None
    ohm = cable_most_ohm(core, defaults)
    if ohm is not None:
        share = _share(ohm, limit)
    return RingOutRow(
        number=1,
        what_for=CORE_WHOLE,
        probe=f"loom's end of {wire_words(core)}",
        other=_far_end(core),
        joined=True,
        most=_most(limit, share),
        unit=limit.unit,
        at_a=limit.at_a,
        of_cable=share,
    )


def _use(index: CircuitIndex, core: CircuitWire) -> Use:
    """What a core is rung out as: a supply by the fuse on its way, if there is one."""
    link = index.link_of(core)
    fuses = [each for each in side_fuses(index) if link is not None and each.id in link.path]
    return Use(_USES.get(core.carries, "control"), fuses[0].value if fuses else None)


_USES: dict[LinkClass, LoomCarries] = {
    "amplified": "speaker",
    "speaker_level": "speaker",
    "supply": "supply",
    "ground": "ground",
}


def _far_end(core: CircuitWire) -> str:
    return f"{FAR_END}{wire_words(core)}"


def _all_others(count: int) -> str:
    return f"the other {count} on the bar"


def _in_order(found: Measurement) -> tuple[bool, str, tuple[int, str]]:
    """What is joined before what is apart, plug by plug, cavity by cavity."""
    return found.limit is None, found.at.place, found.at.by_number


def measurements(plan: LoomPlan) -> Sequence[Measurement]:
    """Return the ring-out of a loom as the job has it."""
    return ring_out(plan.use.loom, plan.cuts, plan.uses, plan.taps)


def bundle_of(plan: LoomPlan, index: CircuitIndex) -> tuple[str, ...]:
    """Return one point of each net: what hangs on one bar, but for the one that is measured."""
    measured = measurements(plan)
    apart = [each for each in measured if each.limit is None]
    found = dict.fromkeys(spot for each in apart for spot in (each.at, *each.against))
    cores = [_far_end(core) for core in other_cores(plan, index)]
    if cores and not found:
        found = dict.fromkeys(each.at for each in measured[:1])
    return (*(_spot(plan, index, spot) for spot in sorted(found, key=_by_place)), *cores)


def _by_place(spot: Terminal) -> tuple[str, tuple[int, str]]:
    return spot.place, spot.by_number


def _row(
    plan: LoomPlan, index: CircuitIndex, found: Measurement, defaults: HouseDefaults
) -> RingOutRow:
    limit, many = found.limit, len(found.against) + len(other_cores(plan, index))
    other = _spot(plan, index, found.against[0])
    share = _of_cable(plan, index, found, defaults)
    return RingOutRow(
        number=1,
        what_for=WHYS["to cable" if share is not None else found.why],
        probe=_spot(plan, index, found.at),
        other=other if limit or many == 1 else _all_others(many),
        joined=limit is not None,
        most=_most(limit, share),
        unit=limit.unit if limit else "",
        at_a=limit.at_a if limit else None,
        of_cable=share,
    )


def _most(limit: Limit | None, share: float | None) -> float | None:
    if limit is None or limit.most is None:
        return None
    return round(limit.most + (share or 0.0), 3)


def _spot(plan: LoomPlan, index: CircuitIndex, spot: Terminal) -> str:
    """A point as it is found on the table: a cavity, a bare end, the far end of a cable."""
    wire = _cable(plan, index, spot)
    return spot.shown if wire is None else _far_end(wire)


def _cable(plan: LoomPlan, index: CircuitIndex, spot: Terminal) -> CircuitWire | None:
    """The conductor of a cable that is found at a point: beside a cavity or at a cut, behind its
    fuse or not, or joined to the bare end of a branch."""
    end = next((each for each in plan.ends if spot.of.startswith(f"{each.name}.")), None)
    if end is None:
        return None
    cavity = spot.of.removeprefix(f"{end.name}.")
    wanted = plan.wanted.get(cavity)
    here = (
        loom_terminal(plan.use.name, end.name, cavity)
        if wanted is None or wanted.unit_half is None
        else free_end(plan, end, cavity)
    )
    for joint in index.joints_of.get(here, []):
        for other in joint.joins:
            found = index.owners.get(other)
            if found is not None and not isinstance(found, CircuitWire):
                found = _behind(index, found.ends)
            if isinstance(found, CircuitWire) and found.loom != plan.use.name:
                return found
    return None


def _behind(index: CircuitIndex, ends: tuple[str, str]) -> CircuitWire | None:
    """The wire at the other end of a fuse."""
    met = [e for joint in index.joints_of.get(ends[1], []) for e in joint.joins]
    wires = [owner for e in met if isinstance(owner := index.owners.get(e), CircuitWire)]
    return next(iter(wires), None)


def _of_cable(
    plan: LoomPlan, index: CircuitIndex, found: Measurement, defaults: HouseDefaults
) -> float | None:
    """What the cable itself takes of a measurement to its far end: Ω, or mV at its current."""
    if found.limit is None:
        return None
    wire = _cable(plan, index, found.against[0])
    ohm = None if wire is None else cable_most_ohm(wire, defaults)
    return None if ohm is None else _share(ohm, found.limit)


def _share(ohm: float, limit: Limit) -> float:
    """What a cable takes of a limit, in its unit."""
    return round(ohm, 3) if limit.unit == "Ω" else round(1000 * ohm * (limit.at_a or 1.0), 2)

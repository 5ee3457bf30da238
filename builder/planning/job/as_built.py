"""What a finished plan leaves in the car, as facts to be written down.

A plan may change with the book, a car does not: once work has begun, the way back and what the
customer gets are told from what was joined.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.job import (
    AsBuilt,
    FittedFuse,
    FittedLoom,
    JoinedPin,
    LaidConductor,
    MadeJoint,
    RecordUsed,
)
from builder.model.names import LEG_SIGNS, function_name
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit, CircuitWire, Element, Joint
from builder.planning.course.joined import UNPLUG
from builder.planning.harness.at_plug import looms_of
from builder.planning.job.recalled import pin_at
from builder.planning.plan import Feed, Plan
from builder.planning.views.names import JOINT_WORDS, met_words
from builder.planning.views.wiring_rows import is_on_a_stud, made_by_us
from builder.planning.words import RUNG_NAMES, UndoneHow
from builder.planning.work_pack import JobParts, WorkPack
from builder.proof.grading.kept import kept_grade

_UNDONE: dict[UndoneHow, str] = {
    "unplug": UNPLUG,
    "rejoin": "take it off, and join the two ends of the car's wire again",
    "take_off": "take it off, and close the insulation of the car's wire",
    "put_back": "take it off, and put the car's own speaker back in its place",
    "with_part": "",
}
"""How a joint is undone, for a person; empty where it leaves with the part."""


def as_built_of(
    pack: WorkPack, parts: JobParts, records: Sequence[RecordUsed] = ()
) -> AsBuilt | None:
    """Return what is in the car when a tap plan has been carried out; None for any other plan.

    `records` are those that it was made from, with their sums.
    """
    circuit = pack.circuit
    if pack.kind != "tap_plan" or circuit is None:
        return None
    looms = looms_of(parts).values()
    return AsBuilt(
        pins=tuple(_pins(pack.plan, parts, CircuitIndex(circuit))),
        conductors=tuple(_conductors(circuit)),
        joints=tuple(_joints(circuit)),
        looms=tuple(FittedLoom(record=use.loom.id, plug=use.plug.id) for use in looms),
        fuses=tuple(map(_fuse, (each for each in circuit.elements if each.kind == "fuse"))),
        records=tuple(records),
    )


def _pins(plan: Plan, parts: JobParts, index: CircuitIndex) -> Iterator[JoinedPin]:
    for at, purpose in _used(plan):
        terminal, pin = index.terminals.get(at), pin_at(parts.vehicle, at)
        grade = kept_grade(parts.vehicle, pin, parts.shelf.defaults).band if pin else None
        colour = terminal.colour if terminal else ""
        place = _joined_at(at, index)
        yield JoinedPin(at=at, purpose=purpose, wire=colour, place=place, grade=grade)


def _used(plan: Plan) -> Iterator[tuple[str, str]]:
    """Each place of the car that the plan is joined to, and what for."""
    for feed in plan.feeds:
        yield f"{feed.plug}.{feed.cavity}", _fed(feed)
    for each in plan.supplied_at:
        at = each.fuse_position or f"{each.plug}.{each.cavity}"
        yield at, f"supply of the converter: {function_name(each.function)}"
    source = plan.turn_on
    if source.fuse_position or source.plug:
        at = source.fuse_position or f"{source.plug}.{source.cavity}"
        yield at, f"turn-on: {RUNG_NAMES[source.kind]}"


def _fed(feed: Feed) -> str:
    leg = f"{feed.channel.replace('-', ' ')} {LEG_SIGNS[feed.leg]}"
    return f"{leg} to input {feed.converter_input} of the converter"


def _joined_at(at: str, index: CircuitIndex) -> str:
    """Where hands join it: the place of its joint, else of its plug."""
    joints = [joint for joint in index.circuit.joints if made_by_us(index, joint)]
    ends = {at, *(end for end, owner in index.owners.items() if _is_car_wire(owner, at))}
    found = next((joint.place for joint in joints if ends & {*joint.joins}), "")
    if found or at not in index.terminals:
        return found or at
    return index.unit_of(at).place


def _is_car_wire(owner: CircuitWire | Element, at: str) -> bool:
    return isinstance(owner, CircuitWire) and owner.stays and owner.place == at


def _fuse(part: Element) -> FittedFuse:
    return FittedFuse(name=part.id, rating=part.rating, place=part.place, purpose=part.purpose)


def _conductors(circuit: Circuit) -> Iterator[LaidConductor]:
    for wire in circuit.wires:
        if not wire.stays:
            yield LaidConductor(
                name=wire.id,
                begins=wire.from_place,
                ends=wire.to_place,
                colour=wire.colour,
                size=wire.conductor,
                length_m=wire.length_m,
            )


def _joints(circuit: Circuit) -> Iterator[MadeJoint]:
    index = CircuitIndex(circuit)
    return (_made(index, joint) for joint in circuit.joints if made_by_us(index, joint))


def _made(index: CircuitIndex, joint: Joint) -> MadeJoint:
    way_back = _UNDONE[joint.undone]
    return MadeJoint(
        id=joint.id,
        place=joint.place,
        meets=met_words(index, joint),
        how=JOINT_WORDS[joint.kind],
        way_back="take it off" if is_on_a_stud(joint) and joint.undone == "take_off" else way_back,
    )

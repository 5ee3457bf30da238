"""What is joined in a car, as a circuit: of the planned one what stands, and what was done
otherwise.

A plan is what somebody meant to do; the as-built part of a job is what is there. Whatever undoes a
job starts from the second, and takes from the first only what it says of the very same joints.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from builder.model.job import (
    AT_RADIO,
    AsBuilt,
    FittedFuse,
    FittedLoom,
    LaidConductor,
    MadeJoint,
)
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import MAKERS_OWN, Circuit, CircuitWire, Element, Unit
from builder.planning.views.names import JOINT_WORDS, is_said_as
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.words import LinkClass
from builder.planning.work_pack import JobParts

UNPLUG: Final = "unplug it; the car's own plug goes home"
"""How a joint is undone that is a plug in its counterpart."""
_CONVERTER: Final = "converter"
"""What a cable is laid to where it ends at one."""
_SHIELD_AND_CENTRE = (" centre", " shield")


@dataclass(frozen=True, slots=True)
class Joined:
    """What is in a car. `otherwise` and `looms` are joints and looms that no circuit knows;
    `absent` are devices at which nothing ends that is joined or laid, `empty` holders of a fuse
    that is not in."""

    circuit: Circuit
    otherwise: tuple[MadeJoint, ...] = ()
    looms: tuple[FittedLoom, ...] = ()
    absent: frozenset[str] = frozenset()
    empty: frozenset[str] = frozenset()


def as_joined(circuit: Circuit | None, as_built: AsBuilt, parts: JobParts) -> Joined:
    """Return what is joined: the circuit without what is not there, with what is there besides.

    `circuit` is None where no plan can be worked out any more.
    """
    planned = circuit or Circuit(units=(*_devices(parts), *_interfaces(parts, as_built)))
    index = CircuitIndex(planned)
    stands = _as_written(index, as_built)
    kept = _without_looms(_kept(planned, index, as_built, stands), as_built)
    otherwise = tuple(_single(as_built, [x for x in as_built.joints if x.id not in stands]))
    whole = replace(
        kept,
        wires=(*kept.wires, *_new_wires(index, as_built)),
        elements=(*kept.elements, *_new_fuses(index, as_built)),
    )
    ends = _words_of_ends(as_built)
    known = {(unit.record, _plug(unit)) for unit in planned.units if unit.kind == "loom"}
    return Joined(
        whole,
        otherwise,
        tuple(each for each in as_built.looms if (each.record, each.plug) not in known),
        frozenset(x.id for x in whole.units if not any(_is_named(x, said) for said in ends)),
        _holders(whole) - {each.name for each in as_built.fuses},
    )


def _holders(circuit: Circuit) -> frozenset[str]:
    return frozenset(each.id for each in circuit.elements if each.kind == "fuse" and not each.loom)


def _is_named(unit: Unit, said: str) -> bool:
    """Whether words of an end name a unit; a cable is laid to a converter, not to its name."""
    return unit.id in said or (unit.kind == "converter" and said == _CONVERTER)


def _as_written(index: CircuitIndex, as_built: AsBuilt) -> frozenset[str]:
    """The joints that are there as they were planned: same name, same place, same ends."""
    written = {each.id: each for each in as_built.joints}
    return frozenset(
        id
        for id, joint in index.joints.items()
        if id in written
        and written[id].place == joint.place
        and is_said_as(index, joint, written[id].meets)
    )


def _single(as_built: AsBuilt, joints: list[MadeJoint]) -> Iterator[MadeJoint]:
    """The joints with one for each plug that is pulled; that of a loom is pulled with the loom."""
    pulled: set[str] = set()
    for joint in joints:
        if joint.way_back != UNPLUG:
            yield joint
        elif not as_built.looms and joint.place not in pulled:
            pulled.add(joint.place)
            yield joint


def _kept(
    planned: Circuit, index: CircuitIndex, as_built: AsBuilt, stands: frozenset[str]
) -> Circuit:
    """What of a circuit is there; what the car or a maker joined is there anyway."""
    joints = [x for x in planned.joints if x.id in stands or not made_by_us(index, x)]
    laid = {each.name for each in as_built.conductors}
    fitted = {each.name: each for each in as_built.fuses}
    met = {end for joint in joints for end in joint.joins}
    return replace(
        planned,
        joints=tuple(joints),
        wires=tuple(x for x in planned.wires if x.stays or x.id in laid or met & {*x.ends}),
        elements=tuple(
            _as_fitted(x, fitted.get(x.id))
            for x in planned.elements
            if x.id in fitted or met & {*x.ends} or x.kind in MAKERS_OWN or x.loom
        ),
    )


def _as_fitted(part: Element, fuse: FittedFuse | None) -> Element:
    return part if fuse is None else replace(part, rating=fuse.rating, place=fuse.place)


def _without_looms(circuit: Circuit, as_built: AsBuilt) -> Circuit:
    """The circuit without the looms that nobody fitted, and whatever is made in them."""
    fitted = {(each.record, each.plug) for each in as_built.looms}
    index = CircuitIndex(circuit)
    out = {x.id for x in circuit.units if x.kind == "loom" and (x.record, _plug(x)) not in fitted}
    if not out:
        return circuit
    gone = {each.id for unit in circuit.units if unit.id in out for each in unit.terminals}
    gone |= {end for end, owner in index.owners.items() if owner.loom in out}
    return replace(
        circuit,
        units=tuple(each for each in circuit.units if each.id not in out),
        wires=tuple(each for each in circuit.wires if each.loom not in out),
        elements=tuple(each for each in circuit.elements if each.loom not in out),
        joints=tuple(each for each in circuit.joints if not gone & {*each.joins}),
    )


def _plug(loom: Unit) -> str:
    """The plug of the car that a loom of a circuit is named after."""
    return loom.id.rpartition(" ")[2]


def _new_wires(index: CircuitIndex, as_built: AsBuilt) -> Iterator[CircuitWire]:
    """Conductors that no plan knows, each a piece of its own; of a line lead both are one."""
    for laid in as_built.conductors:
        if laid.name not in index.wires:
            yield _wire(laid)


def _wire(laid: LaidConductor) -> CircuitWire:
    is_line = laid.name.startswith("line lead")
    piece = laid.name
    for end in _SHIELD_AND_CENTRE:
        piece = piece.removesuffix(end) if is_line else piece
    carries: LinkClass = "line" if is_line else "through"
    return CircuitWire(
        laid.name, carries, laid.name, piece, "", None, None, laid.length_m, laid.begins,
        laid.ends, piece=piece,
    )  # fmt: skip


def _new_fuses(index: CircuitIndex, as_built: AsBuilt) -> Iterator[Element]:
    for fuse in as_built.fuses:
        if fuse.name not in index.elements:
            yield Element(fuse.name, "fuse", 0.0, fuse.rating, fuse.place, fuse.purpose, "supply")


def _words_of_ends(as_built: AsBuilt) -> list[str]:
    """What is said of every end that is joined or laid."""
    laid = [each for wire in as_built.conductors for each in (wire.begins, wire.ends)]
    return [*laid, *(f"{each.meets} {each.place}" for each in as_built.joints)]


def _interfaces(parts: JobParts, as_built: AsBuilt) -> Iterator[Unit]:
    """The data interfaces that something is joined to."""
    for name in (each.name for each in parts.shelf.interfaces.values()):
        if any(name in joint.meets for joint in as_built.joints):
            yield Unit(name, "interface", AT_RADIO)


def _devices(parts: JobParts) -> Iterator[Unit]:
    """The devices of a job of which there is no circuit."""
    job = parts.job
    yield Unit(parts.converter.name, "converter", job.converter_place)
    for amplifier in job.amplifiers:
        yield Unit(amplifier.name, "amplifier", amplifier.place)
    for speaker in job.speakers:
        if not speaker.existing:
            yield Unit(speaker.name, "speaker", speaker.name)


def is_under_trim(joint: MadeJoint) -> bool:
    """Whether something is undone at a joint and it is on no stud, which lies open."""
    return bool(joint.way_back) and joint.how != JOINT_WORDS["ring"]

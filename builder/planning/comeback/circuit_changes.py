"""A circuit with one thing about it made otherwise."""

from __future__ import annotations

from dataclasses import replace

from builder.planning.circuit.model import Circuit, Element, EndId


def without_joints(circuit: Circuit, gone: tuple[str, ...]) -> Circuit:
    """Return a circuit without some of its joints."""
    if not gone:
        return circuit
    return replace(circuit, joints=tuple(each for each in circuit.joints if each.id not in gone))


def without_parts(circuit: Circuit, *gone: Element) -> Circuit:
    """Return a circuit in which some parts no longer conduct."""
    left = tuple(part for part in circuit.elements if part not in gone)
    return replace(circuit, elements=left)


def exchanged(circuit: Circuit, one: EndId, other: EndId) -> Circuit:
    """Return a circuit in which two ends are in each other's place.

    What the maker of a crossover joined behind its terminals stays as it is.
    """
    names = {one: other, other: one}
    return replace(
        circuit,
        joints=tuple(
            replace(joint, joins=tuple(names.get(end, end) for end in joint.joins))
            if joint.kind != "inside" and (one in joint.joins or other in joint.joins)
            else joint
            for joint in circuit.joints
        ),
    )

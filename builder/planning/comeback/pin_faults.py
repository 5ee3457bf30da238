"""Faults of what switches on: a wire in another cavity, or taken past the converter."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.model.names import SINGULAR_NAMES
from builder.model.plugs import Pin, Plug
from builder.model.words import SUPPLIES, Function
from builder.planning.circuit.model import Circuit, EndId, Link, Terminal
from builder.planning.circuit.terminal_names import turn_on_input, turn_on_output
from builder.planning.comeback.condition import Fault
from builder.planning.comeback.handed_over import HandedOver, live_when

_TAKEN_FOR: frozenset[Function] = SUPPLIES | {"illumination", "amplifier_on", "aerial_on"}
"""What somebody takes for the wire that switches on: whatever shows volts with the key on."""


def pin_faults(job: HandedOver) -> Iterator[Fault]:
    """Yield a turn-on at every cavity it may have been taken from by mistake, then past it."""
    for link in job.circuit.links:
        if link.carries == "control" and job.index.unit_of(link.begins).kind == "plug":
            yield from _wrong_pins(job, link)
        if link.begins == turn_on_output(job.whole.day.converter):
            yield from _past_converter(job, link)


def _wrong_pins(job: HandedOver, link: Link) -> Iterator[Fault]:
    plug = job.parts.vehicle.plug(link.begins.rpartition(".")[0])
    wrong = [pin for pin in plug.pins if _may_be_taken(job, plug, pin, link)] if plug else []
    for pin in wrong:
        yield _wrong_pin(job, link, f"{plug.id}.{pin.cavity}" if plug else "", pin, len(wrong))


def _may_be_taken(job: HandedOver, plug: Plug, pin: Pin, link: Link) -> bool:
    right = next(each for each in plug.pins if link.begins == f"{plug.id}.{each.cavity}")
    return pin.function in _TAKEN_FOR and pin.function != right.function


def _wrong_pin(job: HandedOver, link: Link, cavity: str, pin: Pin, among: int) -> Fault:
    name = f"{cavity} by mistake"
    unit = job.index.unit_of(link.begins)
    taken = Terminal(name, unit.id, name, "drives", "control")
    units = tuple(
        replace(each, terminals=(*each.terminals, taken)) if each.id == unit.id else each
        for each in job.circuit.units
    )
    circuit = replace(_moved(job.circuit, link, link.begins, name), units=units)
    return Fault(
        f"wrong pin {cavity} for {link.begins}", "wrong_pin", link.begins,
        f"{link.purpose} is joined to {cavity}, the {SINGULAR_NAMES[pin.function]}, not to "
        f"{link.begins}",
        f"join {link.purpose} to {link.begins}, and close off the wire that it was at",
        unit.place, job.house.comeback_changed_over / among, circuit,
        live={name: live_when(pin.function, job.house)},
    )  # fmt: skip


def _past_converter(job: HandedOver, link: Link) -> Iterator[Fault]:
    source = turn_on_input(job.whole.day.converter)
    if source not in job.index.terminals:
        return
    yield Fault(
        f"past the converter {link.id}", "past_converter", link.id,
        f"{link.purpose} is joined to what switches the converter on, not to its turn-on output",
        f"join {link.purpose} to {link.begins}: it comes on once the converter has settled",
        job.index.unit_of(link.begins).place, job.house.comeback_changed_over,
        _moved(job.circuit, link, link.begins, source),
    )  # fmt: skip


def _moved(circuit: Circuit, link: Link, begins: EndId, instead: EndId) -> Circuit:
    """A circuit whose link begins at another terminal."""
    first = link.path[1]
    return replace(
        circuit,
        joints=tuple(
            replace(joint, joins=tuple(instead if end == begins else end for end in joint.joins))
            if joint.id == first
            else joint
            for joint in circuit.joints
        ),
    )

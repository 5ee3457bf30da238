"""Lines of the bay sheet about looms: rung out before a plug is unplugged; what they pass on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.model.names import SINGULAR_NAMES
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, tick
from builder.planning.circuit.terminal_names import loom_terminal, socket_terminal
from builder.planning.harness.planned import LoomPlan
from builder.planning.looms.conductors import conductors
from builder.planning.looms.ring_out import ring_out
from builder.planning.work_pack import BayTest


def ring_out_lines(looms: Mapping[str, LoomPlan]) -> Iterator[BayTest]:
    """Yield the gate of each loom: nothing of the car comes apart before its ring-out passed."""
    for plan in looms.values():
        name = plan.use.name
        yield tick(
            speakable(name, "ring out"), "at_table",
            f"{name}, on the table: every line of its ring-out has passed. No plug of the car is "
            "unplugged before", "step",
            "a wire that is open, shorted or changed over in the loom is one in the car",
            tuple(_joined(plan)), WITH_THE_CIRCUIT,
        )  # fmt: skip


def fuse_lines(looms: Mapping[str, LoomPlan]) -> Iterator[BayTest]:
    """Yield one line a loom with fuses: which go in, and that no link of the ring-out is left."""
    for plan in looms.values():
        fused = [wire for wire in conductors(plan.use.loom) if wire.fuse_a is not None]
        if not fused and not plan.taps:
            continue
        said = [f"{wire.start.shown} to {wire.to.shown} {wire.fuse_a:g} A" for wire in fused]
        spots = [spot for wire in fused for spot in (wire.start, wire.to) if spot.cavity]
        yield tick(
            speakable(plan.use.name, "fuses"), "fused",
            f"{plan.use.name}: no holder of the loom has a link of wire in it"
            f"{'; what goes in: ' if said else ''}{', '.join(said)}", "battery_off",
            "a link that the ring-out left there protects nothing",
            tuple(loom_terminal(plan.use.name, spot.place, spot.cavity) for spot in spots),
            WITH_THE_CIRCUIT,
        )  # fmt: skip


def _joined(plan: LoomPlan) -> Iterator[str]:
    """Every two cavities that the ring-out finds joined, two by two."""
    for each in ring_out(plan.use.loom, plan.cuts, plan.uses):
        spots = (each.at, *each.against)
        if each.limit is not None and all(spot.cavity for spot in spots):
            yield from (loom_terminal(plan.use.name, spot.place, spot.cavity) for spot in spots)


def passed_on_lines(looms: Mapping[str, LoomPlan]) -> Iterator[BayTest]:
    """Yield what has to work as before behind each loom, by the wires that it passes on."""
    for plan in looms.values():
        plug = plan.use.plug
        pins = [pin for pin in plug.pins if plan.use.passes(pin.cavity)]
        pins = [pin for pin in pins if not _is_cut(plan, pin.cavity)]
        if not pins:
            continue
        said = dict.fromkeys(SINGULAR_NAMES[pin.function] for pin in pins)
        cavities = [f"{plug.id}.{pin.cavity}" for pin in pins]
        yield tick(
            speakable(plan.use.name, "passed on"), "passed_on",
            f"{plan.use.name} home at both ends: whatever it passes on works as before: "
            f"{', '.join(said)}", "radio_on_zero",
            "a plug that is not home, or a wire that was cut by mistake",
            tuple(end for each in cavities for end in (socket_terminal(plug.unit, each), each)),
            WITH_THE_CIRCUIT,
        )  # fmt: skip


def _is_cut(plan: LoomPlan, cavity: str) -> bool:
    wanted = plan.wanted.get(cavity)
    return wanted is not None and wanted.unit_half is not None

"""Lines of the bay sheet about looms: rung out before a plug is unplugged; what they pass on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from builder.model.names import SINGULAR_NAMES
from builder.model.pin import Pin
from builder.model.words import Function, State
from builder.planning.bay.ids import speakable
from builder.planning.bay.line import WITH_THE_CIRCUIT, tick
from builder.planning.circuit.terminal_names import loom_terminal, socket_terminal
from builder.planning.harness.planned import LoomPlan
from builder.planning.looms.conductors import conductors
from builder.planning.looms.ring_out import ring_out
from builder.planning.words import Turn
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
        for kind, line in _PASSED:
            shown = [pin for pin in pins if _shown_by(pin) == kind]
            if shown:
                yield _passed_on(plan, line, shown)


Shown = Literal["standing", "lit", "geared", "heard", "driven"]


class _Line(NamedTuple):
    """How it is seen that a kind of wire is passed on."""

    name: str  # in the id of its line
    turn: Turn
    state: State
    says: str


_PASSED: tuple[tuple[Shown, _Line], ...] = (
    ("standing", _Line(
        "passed on", "passed_on", "radio_on_zero",
        "{0} home at both ends: whatever it passes on works as before: {1}",
    )),
    ("lit", _Line(
        "passed on lit", "passed_on", "lights_on",
        "{0}: the radio's keys light up with the lamps and follow the dimmer as before: {1}",
    )),
    ("geared", _Line(
        "passed on geared", "passed_on", "run",
        "{0}, radio on, engine off, foot on the brake, nobody beside the car: reverse gear in and "
        "out, parking brake off and on; what hangs on these works as before: {1}",
    )),
    ("heard", _Line(
        "passed on heard", "passed_on", "tuner",
        "{0}, tuner at low volume, balance and fader to each corner: every {1} that it passes on "
        "is heard",
    )),
    ("driven", _Line(
        "passed on seated", "passed_on", "radio_on_zero",
        "{0} home at both ends, each of these wires pulled lightly behind both plugs: none comes "
        "out: {1}",
    )),
    ("driven", _Line(
        "passed on driven", "driven", "engine",
        "{0}, on a drive and in a telephone call: what hangs on these works as before: {1}; never "
        "place an emergency call",
    )),
)  # fmt: skip
"""A line is read where its wires are live, by `_LIVE_WITH`. Nothing is heard at volume zero, and a
car that stands shows neither its speed nor a mute: those contacts are felt for before trim goes
home. Common practice, no source."""


def _shown_by(pin: Pin) -> Shown:
    if pin.function in ("speaker", "line"):
        return "heard"
    return _LIVE_WITH.get(pin.function, "standing")


_LIVE_WITH: dict[Function, Shown] = {
    "illumination": "lit", "illumination_return": "lit",
    "run": "geared", "reverse": "geared", "park_brake": "geared",
    "camera_supply": "geared", "camera_signal": "geared",
    "speed": "driven", "mute": "driven", "microphone": "driven",
}  # fmt: skip
"""What a wire waits for that is dead while the radio plays with the key at accessory: the lamps, a
gear or a brake with the key at run, a drive, a call. Common practice, no source; `proof/signatures`
has what each reads in which state."""


def _passed_on(plan: LoomPlan, line: _Line, pins: Sequence[Pin]) -> BayTest:
    plug = plan.use.plug
    said = dict.fromkeys(SINGULAR_NAMES[pin.function] for pin in pins)
    cavities = [f"{plug.id}.{pin.cavity}" for pin in pins]
    return tick(
        speakable(plan.use.name, line.name), line.turn,
        line.says.format(plan.use.name, ", ".join(said)), line.state,
        "a plug that is not home, or a wire that was cut by mistake",
        tuple(end for each in cavities for end in (socket_terminal(plug.unit, each), each)),
        WITH_THE_CIRCUIT,
    )  # fmt: skip


def _is_cut(plan: LoomPlan, cavity: str) -> bool:
    wanted = plan.wanted.get(cavity)
    return wanted is not None and wanted.unit_half is not None

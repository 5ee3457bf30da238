"""The steps while a job is built: cables, joints, turn-on, supply; nothing is powered."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.parts import Interface
from builder.model.words import Channel
from builder.planning.bay.step_line import step
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.car.selection import Selection
from builder.planning.levels.fitted_pads import FittedPad, fitted_pads
from builder.planning.pack_details import HoldUpPart
from builder.planning.plan import Plan
from builder.planning.turn_on.loads import WAKES_BY_ITSELF, place_of
from builder.planning.work_pack import JobParts, Step


def build_steps(
    parts: JobParts, plan: Plan, selection: Selection, hold_up: HoldUpPart | None
) -> Iterator[Step]:
    """Yield what is laid, cut and joined, in order; the main fuse stays out."""
    yield step("build", "lay every cable dry, everything in its final place, then cut")
    yield step("build", "label both ends and the middle of every jacket before it is stripped")
    yield step("build", _JOINTS, "no joint parts at a pull of 40 N on 18 AWG")
    for tap in selection.broken:
        fed = tap.converter_input > 0
        yield step("build", _break_text(tap.pair.channel, _cavities(tap.pair), fed=fed))
    for tap in selection.listening:
        yield step(
            "build",
            f"{tap.pair.channel} ({_cavities(tap.pair)}): join beside the wire, leave it whole",
        )
    for pad in fitted_pads(plan.levels, parts.converter):
        yield step("build", _pad_text(pad, parts.converter.name))
    yield from _turn_on_steps(parts, plan, hold_up)
    yield step("build", _power_text(parts))
    if microphones_out(parts.vehicle, selection):
        yield step("build", _MICROPHONES)
    yield step("build", "close off every spare conductor and every open end by itself")


_JOINTS = (
    "at every joint: sleeve on first, then crimp or solder, sleeve over it, the joints of a cable "
    "30 to 40 mm apart, then tape; nothing that bites through insulation"
)
_MICROPHONES = (
    "noise cancellation: unplug its microphones, close their plugs off and write down where each "
    "one is; it was tuned for the car's own bass"
)


def _cavities(pair: object) -> str:
    legs = getattr(pair, "legs", ())
    return " and ".join(leg.name for leg in legs)


def _break_text(channel: Channel, cavities: str, *, fed: bool) -> str:
    goes = "to the converter" if fed else "closed off, each leg by itself"
    return (
        f"{channel} ({cavities}): cut at least 75 mm from the plug or use a pair of mating plugs; "
        f"radio end {goes}, speaker end to the amplifier's return. The two ends never meet again"
    )


def _pad_text(pad: FittedPad, converter: str) -> str:
    return (
        f"{pad.channel}: fit its pad close to {converter}, a resistor of {pad.resistor} in each "
        "leg, both legs alike, each in a sleeve of its own"
    )


def _turn_on_steps(parts: JobParts, plan: Plan, hold_up: HoldUpPart | None) -> Iterator[Step]:
    turn_on = plan.turn_on
    if turn_on.kind in WAKES_BY_ITSELF:
        yield step("build", f"no turn-on wire: set {parts.converter.name} to wake by itself")
    elif turn_on.kind != "none":
        fuse = " behind a 1 A fuse of its own" if turn_on.fuse_position else ""
        if turn_on.interface is not None:
            yield step("build", _interface_text(parts.shelf.interfaces[turn_on.interface]))
        target = parts.converter.name if parts.converter.remote_in else "the amplifier"
        yield step("build", f"turn-on from {place_of(turn_on)} to {target}{fuse}")
    if hold_up is not None:
        yield step(
            "build",
            f"{hold_up.capacitor_uf:g} µF, 25 V, from {hold_up.where} to ground behind a diode; it "
            f"charges through {hold_up.charge_ohm:g} Ω and feeds through a diode across that",
        )


def _interface_text(interface: Interface) -> str:
    return (
        f"data interface {interface.id}: between plug and unit by its own plug, no wire of the car "
        f"cut or tapped; its supply behind its own {interface.supply.fuse_a:g} A fuse"
    )


def _power_text(parts: JobParts) -> str:
    own = parts.converter.supply
    said = "supply, ground and fuse holders; the main fuse stays out"
    return said if own is None else f"{said}. {parts.converter.name} hangs on the amplifier's " \
        f"terminals through {own.fuse_a:g} A"  # fmt: skip

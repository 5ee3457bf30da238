"""What the customer gets and what brings the car back to stock."""

from __future__ import annotations

from builder.figures import shown, span
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.car.selection import Selection
from builder.planning.levels.fitted_pads import fitted_pads
from builder.planning.pack_details import HoldUpPart, PowerSheet
from builder.planning.plan import Plan
from builder.planning.turn_on.loads import WAKES_BY_ITSELF, place_of
from builder.planning.work_pack import JobParts


def revert_list(
    parts: JobParts,
    plan: Plan,
    selection: Selection,
    hold_up: HoldUpPart | None,
    stand_ins: int,
) -> tuple[str, ...]:
    """Return what is undone, in order, to have the car as it left the factory."""
    lines = [
        "Main fuse out and battery negative off first; wait as for the work itself.",
        *_joints_undone(selection),
    ]
    lines += [
        f"Take the pad of {pad.channel} out: {pad.resistor} in each leg, at the converter."
        for pad in fitted_pads(plan.levels, parts.converter)
    ]
    if stand_ins:
        lines.append(f"Take {stand_ins} stand-in resistors off the radio ends.")
    if plan.turn_on.kind not in WAKES_BY_ITSELF and plan.turn_on.kind != "none":
        lines.append(f"Take the turn-on wire off {place_of(plan.turn_on)}.")
    if plan.turn_on.interface is not None:
        lines.append(f"Unplug the data interface {plan.turn_on.interface}; the car's plug home.")
    if hold_up is not None:
        lines.append("Take the hold-up capacitor with its diodes out.")
    if microphones_out(parts.vehicle, selection):
        lines.append("Plug the noise-cancellation microphones in again, each where it was noted.")
    lines.append("Take supply, ground and cables out; seal every hole and grommet.")
    lines += [f"Put back as found: {zone}." for zone in _zones(parts)]
    lines.append("Lamps, faults and sounds as written down before the work.")
    return tuple(lines)


def _joints_undone(selection: Selection) -> list[str]:
    broken = [
        f"{tap.pair.channel}: join radio end and speaker end again at "
        f"{' and '.join(leg.name for leg in tap.pair.legs)}, leg to leg; take the return off first."
        for tap in selection.broken
    ]
    beside = [
        f"{tap.pair.channel}: take the joint beside the wire off and close its insulation at "
        f"{' and '.join(leg.name for leg in tap.pair.legs)}."
        for tap in selection.listening
    ]
    return broken + beside


def _zones(parts: JobParts) -> tuple[str, ...]:
    return restraint_zones_touched(parts.job, parts.vehicle)


def customer_sheet(
    parts: JobParts,
    plan: Plan,
    losses: tuple[str, ...],
    power: PowerSheet | None,
) -> tuple[str, ...]:
    """Return what is fitted, what changed, where the fuse is, what it costs standing."""
    fitted = [parts.converter.name, *(each.name for each in parts.amplifiers.values())]
    lines = [f"Fitted: {', '.join(fitted)}. Asked for: {parts.job.wanted}."]
    lines += [f"What changes: {loss}" for loss in losses] or ["Nothing of the car's own is lost."]
    lines += _sounds(parts, losses)
    if power is not None and power.main_fuse_a is not None:
        place = _fuse_place(power)
        lines.append(
            f"Main fuse: {shown(power.main_fuse_a)} A, {place}. Out, everything added is off."
        )
    lines += _fuses(parts)
    steps = [c.level.at_volume_step for c in parts.vehicle.channels if c.level]
    known = [step for step in steps if step is not None]
    if known:
        lines.append(f"Loudest clean volume: step {min(known)}. Beyond it only distortion grows.")
    lines += _battery(plan, power)
    lines.append("Something sounds wrong, smells or gets hot: main fuse out, and call the shop.")
    return tuple(lines)


def _sounds(parts: JobParts, losses: tuple[str, ...]) -> list[str]:
    lost = " ".join(losses).lower()
    kept = [
        sound.sound for sound in parts.vehicle.protected_sounds if sound.sound.lower() not in lost
    ]
    return [f"As before: {', '.join(kept)}."] if kept else []


def _fuse_place(power: PowerSheet) -> str:
    if power.fuse_to_battery_m is None:
        return "close to the battery"
    return f"{shown(power.fuse_to_battery_m)} m of wire from the battery"


def _fuses(parts: JobParts) -> list[str]:
    own = parts.converter.supply
    if own is None:
        return []
    return [f"Converter fuse: {shown(own.fuse_a)} A, at the amplifier."]


def _battery(plan: Plan, power: PowerSheet | None) -> list[str]:
    if power is None:
        return []
    lines = []
    if power.listening_h is not None:
        lines.append(f"Engine off, loud: about {span(power.listening_h)}, then start the engine.")
    if power.parked_days is not None:
        lines.append(f"Left standing: about {span(24 * power.parked_days)}.")
    if plan.turn_on.kind in WAKES_BY_ITSELF and power.latch_ah_per_day is not None:
        lines.append(
            f"After each lock it stays awake for a while, {shown(power.latch_ah_per_day, 2)} Ah "
            "a day."
        )
    return lines

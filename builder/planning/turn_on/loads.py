"""What a turn-on source has to switch in a job, and which wire it is."""

from __future__ import annotations

from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.planning.plan import TurnOn
from builder.planning.trust import position_as_pin
from builder.planning.words import TurnOnKind
from builder.planning.work_pack import JobParts

WAKES_BY_ITSELF: frozenset[TurnOnKind] = frozenset({"offset_wake", "signal_wake"})
"""Turn-on kinds in which the converter switches itself on."""


def followers(parts: JobParts) -> dict[str, float]:
    """Return what has to be switched on besides the converter, with its draw. [mA]"""
    found = {name: amplifier.turn_on.draw_ma for name, amplifier in parts.amplifiers.items()}
    return found | {load.name: load.draw_ma for load in parts.job.other_turn_on_loads}


def source_draw_ma(parts: JobParts) -> float:
    """Return what the car's own turn-on source has to give. [mA]

    The converter alone where it switches the rest by its remote output, else everything.
    """
    own = parts.converter.remote_in.draw_ma if parts.converter.remote_in else 0.0
    return own if parts.converter.remote_out else own + sum(followers(parts).values())


def place_of(turn_on: TurnOn) -> str:
    """Return the turn-on source as a person names it: "A.9", "F14"."""
    if turn_on.plug is not None:
        return f"{turn_on.plug}.{turn_on.cavity}"
    return turn_on.fuse_position or turn_on.interface or turn_on.pair or "nothing"


def turn_on_pin(vehicle: Vehicle, turn_on: TurnOn) -> Pin | None:
    """Return the wire or fuse position that was chosen, or None for a pair or nothing."""
    for position in vehicle.fuse_positions:
        if turn_on.fuse_position == position.position:
            return position_as_pin(position)
    plug = vehicle.plug(turn_on.plug) if turn_on.plug else None
    pins = plug.pins if plug else ()
    return next((pin for pin in pins if pin.cavity == turn_on.cavity), None)

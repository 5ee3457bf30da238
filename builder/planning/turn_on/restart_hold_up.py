"""What an engine restart does to a turn-on, node by node, and the capacitor that carries one over.

The car's turn-on lead is a node; a converter's turn-on output is another, fed from the converter's
own supply. A capacitor carries over the inputs of its own node and nothing else, and none at all
where the supply itself falls too low for a device.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.figures import share_percent, shown, small_current
from builder.model.house_defaults import HouseDefaults
from builder.model.parts import Supply
from builder.model.plugs import Pin, Reading
from builder.model.vehicle import Vehicle
from builder.model.words import GROUND_REFERENCES
from builder.planning.pack_details import HoldUpPart, PackFlag
from builder.planning.plan import Reason, TurnOn
from builder.planning.power.flags import PowerFlag
from builder.planning.tables import AUDIO_SUPPLY_V, DEVICE_RECORD, HOUSE_DEFAULT, RECORD
from builder.planning.turn_on.hold_up import dip_flags, size_hold_up
from builder.planning.turn_on.loads import followers, place_of, source_draw_ma, turn_on_pin
from builder.planning.work_pack import JobParts

Answer = tuple[HoldUpPart | None, list[Reason], list[PackFlag]]


@dataclass(frozen=True, slots=True)
class _Node:
    """A turn-on conductor: what hangs on it, and how far a restart was read to pull it down."""

    where: str
    draw_ma: float
    threshold_v: float  # the highest at which one of its inputs lets go
    dip: Reading
    resting_v: float | None
    gives_ma: float | None  # the most that feeds it, when recorded


def restart_hold_up(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> Answer:
    """Return what a start-stop restart does to the turn-on, and the capacitor that carries it over.

    Every node is looked at by itself; the first that drops gets the capacitor.
    """
    if parts.vehicle.features.start_stop == "no":
        return None, [], []
    low = [node for node in _nodes(parts, turn_on) if (node.dip.value or 0.0) < node.threshold_v]
    high = [node for node in _nodes(parts, turn_on) if node not in low]
    reasons = [_stays(node) for node in high]
    short = [flag.says for flag in short_supplies(parts)]
    if not low:
        return None, reasons, []
    if short:
        because = f"{'; '.join(short)}: a capacitor on a turn-on holds no supply up"
        flags = [_flag(node) for node in low]
        return None, [*reasons, Reason(_NONE_HELPS, because, DEVICE_RECORD)], flags
    part, said, flags = _hold_over(low[0], defaults)
    return part, [*reasons, *said], [*flags, *(_flag(node) for node in low[1:])]


_NONE_HELPS = "a capacitor cannot bridge the restart"


def _nodes(parts: JobParts, turn_on: TurnOn) -> Iterator[_Node]:
    """The car's turn-on lead and the converter's turn-on output, as far as their dips were read."""
    pin = turn_on_pin(parts.vehicle, turn_on)
    threshold = highest_threshold_v(parts)
    if pin is not None and threshold is not None:
        for dip in _lowest(pin.readings):
            where, draw = place_of(turn_on), source_draw_ma(parts)
            yield _Node(where, draw, threshold, dip, _resting_v(pin), turn_on.capacity_ma)
    output = parts.converter.remote_out
    behind = _thresholds(parts) if output else []
    if output and behind:
        where = f"the turn-on output of {parts.converter.name}"
        for dip in _lowest(supply_dips(parts.vehicle)):
            draw = sum(followers(parts).values())
            yield _Node(where, draw, max(behind), dip, None, output.max_ma)


def supply_dips(vehicle: Vehicle) -> list[Reading]:
    """Return the readings of the car's constant supplies while the engine restarted by itself."""
    constants = [pin for plug in vehicle.plugs for pin in plug.pins if pin.function == "constant"]
    return [reading for pin in constants for reading in pin.readings if _is_dip(reading)]


def _lowest(readings: Sequence[Reading]) -> list[Reading]:
    dips = [reading for reading in readings if _is_dip(reading)]
    return [min(dips, key=lambda reading: reading.value or 0.0)] if dips else []


def _is_dip(reading: Reading) -> bool:
    return (
        reading.state == "auto_restart"
        and reading.quantity == "dc_v"
        and reading.value is not None
        and reading.against in GROUND_REFERENCES
    )


def highest_threshold_v(parts: JobParts) -> float | None:
    """Return the highest voltage at which an input on the car's turn-on lead lets go. [V]

    Behind a converter's turn-on output the amplifiers hang on that output, not on the car's lead.
    """
    own = parts.converter.remote_in
    inputs = [own.threshold_v] if own and own.threshold_v is not None else []
    inputs += [] if parts.converter.remote_out else _thresholds(parts)
    return max(inputs, default=None)


def _thresholds(parts: JobParts) -> list[float]:
    inputs = [amplifier.turn_on.threshold_v for amplifier in parts.amplifiers.values()]
    return [volts for volts in inputs if volts is not None]


def short_supplies(parts: JobParts) -> list[PowerFlag]:
    """Return the flags of devices whose own supply falls too low in a restart."""
    supplies: dict[str, Supply] = {
        name: amplifier.supply for name, amplifier in parts.amplifiers.items()
    }
    if parts.converter.supply is not None:
        supplies[parts.converter.name] = parts.converter.supply
    return [
        flag
        for dip in _lowest(supply_dips(parts.vehicle))
        if dip.value is not None
        for name, supply in supplies.items()
        for flag in dip_flags(name, dip.value, supply.min_v)
    ]


def _stays(node: _Node) -> Reason:
    dip = shown(node.dip.value, 1, beside=node.threshold_v)
    because = (
        f"a restart pulls it to {dip} V, and what hangs on it, {shown(node.draw_ma)} mA, lets go "
        f"at {shown(node.threshold_v)} V"
    )
    return Reason(f"no hold-up needed at {node.where}", because, DEVICE_RECORD)


def _says(node: _Node) -> str:
    low = shown(node.dip.value, 1, beside=node.threshold_v)
    return (
        f"a restart pulls {node.where} to {low} V, an input on it lets go at "
        f"{shown(node.threshold_v)} V"
    )


def _flag(node: _Node) -> PackFlag:
    value = node.dip.value or 0.0
    return PackFlag("restart_drops_turn_on", node.where, _says(node), value, node.threshold_v, "V")


def _hold_over(node: _Node, defaults: HouseDefaults) -> Answer:
    resting = node.dip.from_v if node.dip.from_v is not None else node.resting_v
    if not node.dip.lasts_s or resting is None:
        because = f"{_says(node)}. Time the dip with a scope, then the capacitor can be sized"
        return None, [Reason("time the restart dip", because, RECORD)], [_flag(node)]
    if resting - 2 * defaults.hold_up_diode_v <= node.threshold_v:
        because = (
            f"{_says(node)}, and {shown(resting)} V less two diodes is no more than that before "
            "the dip: no capacitor can hold it. Use an input that lets go lower"
        )
        return None, [Reason(_NONE_HELPS, because, RECORD)], [_flag(node)]
    if not node.draw_ma:
        because = (
            f"{_says(node)}, and the records say that its inputs draw 0 mA: no capacitor can be "
            "sized for nothing. Measure what they draw"
        )
        return None, [Reason("measure the turn-on current", because, DEVICE_RECORD)], [_flag(node)]
    return *_sized(node, node.dip.lasts_s, resting, defaults), []


def _sized(
    node: _Node, dip_s: float, resting: float, defaults: HouseDefaults
) -> tuple[HoldUpPart, list[Reason]]:
    """The capacitor for the inputs on one node. [s, V]"""
    gives_a = None if node.gives_ma is None else node.gives_ma / 1000
    held = size_hold_up(node.draw_ma / 1000, dip_s, resting, node.threshold_v, defaults, gives_a)
    part = HoldUpPart(
        held.needed_farad * 1e6, held.capacitor_farad * 1e6, held.charge_ohm, held.held_s,
        resting, node.threshold_v, held.inrush_a, node.where, held.least_v, held.after_s,
    )  # fmt: skip
    because = (
        f"{_says(node)}; {shown(node.draw_ma)} mA of all inputs on it for {shown(held.held_s)} s "
        f"from {shown(resting)} V, {shown(held.start_v, 1)} V behind the diode, to "
        f"{shown(held.end_v, 2)} V, what it loses on its way out counted, take "
        f"{shown(part.needed_uf, 0)} µF, and such a part may be "
        f"{share_percent(defaults.hold_up_short_share)} short of what is printed on it. A diode "
        f"before it, charged through {shown(held.charge_ohm)} Ω with a diode across: at most "
        f"{shown(held.inrush_a, 2)} A at {AUDIO_SUPPLY_V} V{_of(node)}"
    )
    decision = f"hold {node.where} up with {shown(part.capacitor_uf)} µF"
    return part, [Reason(decision, because, HOUSE_DEFAULT)]


def _of(node: _Node) -> str:
    """What there is for charging beside what the inputs take."""
    if node.gives_ma is None:
        return ""
    return f", of {small_current(node.gives_ma)} with the {shown(node.draw_ma)} mA of the inputs"


def _resting_v(pin: Pin) -> float | None:
    """The lowest the wire shows with the key on and the engine not starting. [V]"""
    volts = [
        reading.value
        for reading in pin.readings
        if reading.state in ("run", "engine", "accessory")
        and reading.quantity == "dc_v"
        and reading.value is not None
        and reading.against in GROUND_REFERENCES
    ]
    return min(volts, default=None)

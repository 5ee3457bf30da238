"""What an engine restart does to a turn-on wire, and the capacitor that carries it over."""

from __future__ import annotations

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin, Reading
from builder.planning.car.pairs import GROUND_REFERENCES
from builder.planning.pack_details import HoldUpPart, PackFlag
from builder.planning.plan import Reason, TurnOn
from builder.planning.tables import DEVICE_RECORD, HOUSE_DEFAULT, RECORD
from builder.planning.turn_on.hold_up import size_hold_up
from builder.planning.turn_on.loads import followers, source_draw_ma, turn_on_pin
from builder.planning.work_pack import JobParts


def restart_hold_up(
    parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults
) -> tuple[HoldUpPart | None, list[Reason], list[PackFlag]]:
    """What a start-stop restart does to the turn-on, and the capacitor that carries it over."""
    pin = turn_on_pin(parts.vehicle, turn_on)
    threshold = highest_threshold_v(parts)
    if pin is None or parts.vehicle.features.start_stop == "no" or threshold is None:
        return None, [], []
    dips = [reading for reading in pin.readings if _is_dip(reading)]
    if not dips:
        return None, [], []  # the tap plan asks for the reading
    lowest = min(dips, key=lambda reading: reading.value or 0.0)
    value = lowest.value or 0.0
    if value >= threshold:
        dip = shown(value, 1, beside=threshold)
        because = f"a restart pulls it to {dip} V, the inputs let go at {shown(threshold)} V"
        return None, [Reason("no hold-up needed", because, DEVICE_RECORD)], []
    return _hold_over(parts, lowest, pin, threshold, defaults)


def _is_dip(reading: Reading) -> bool:
    return (
        reading.state == "auto_restart"
        and reading.quantity == "dc_v"
        and reading.value is not None
        and reading.against in GROUND_REFERENCES
    )


def highest_threshold_v(parts: JobParts) -> float | None:
    """The highest voltage at which one of the inputs lets go. [V]"""
    own = parts.converter.remote_in
    inputs = [amplifier.turn_on for amplifier in parts.amplifiers.values()]
    inputs += [own] if own else []
    return max((each.threshold_v for each in inputs if each.threshold_v is not None), default=None)


def _hold_over(
    parts: JobParts, dip: Reading, pin: Pin, threshold: float, defaults: HouseDefaults
) -> tuple[HoldUpPart | None, list[Reason], list[PackFlag]]:
    value = dip.value or 0.0
    low = shown(value, 1, beside=threshold)
    says = f"a restart pulls the turn-on to {low} V, an input lets go at {shown(threshold)} V"
    flag = PackFlag("restart_drops_turn_on", _pin_name(pin), says, value, threshold, "V")
    resting = dip.from_v if dip.from_v is not None else _resting_v(pin)
    if dip.lasts_s is None or resting is None:
        because = f"{says}. Time the dip with a scope, then the capacitor can be sized"
        return None, [Reason("time the restart dip", because, RECORD)], [flag]
    if resting - defaults.hold_up_diode_v <= threshold:
        because = (
            f"{says}, and {shown(resting)} V less a diode is no more than that before the dip: no "
            "capacitor can hold it. Use an input that lets go lower"
        )
        return None, [Reason("a capacitor cannot bridge the restart", because, RECORD)], [flag]
    return *_sized(parts, dip.lasts_s, resting, threshold, says, defaults), []


def _sized(
    parts: JobParts,
    dip_s: float,
    resting: float,
    threshold: float,
    says: str,
    defaults: HouseDefaults,
) -> tuple[HoldUpPart, list[Reason]]:
    """The capacitor for all inputs behind the turn-on. [s, V, V]"""
    draw = source_draw_ma(parts) if not parts.converter.remote_out else _all_ma(parts)
    held = size_hold_up(draw / 1000, dip_s, resting, threshold, defaults)
    part = HoldUpPart(
        held.needed_farad * 1e6, held.capacitor_farad * 1e6, held.charge_ohm, held.held_s,
        resting, threshold, held.inrush_a,
    )  # fmt: skip
    because = (
        f"{says}; {draw:g} mA of all inputs behind it for {held.held_s:g} s from "
        f"{held.start_v:.1f} V take {part.needed_uf:.0f} µF. A diode before it, charged through "
        f"{held.charge_ohm:g} Ω with a diode across"
    )
    decision = f"hold the turn-on up with {part.capacitor_uf:g} µF"
    return part, [Reason(decision, because, HOUSE_DEFAULT)]


def _pin_name(pin: Pin) -> str:
    return pin.cavity


def _all_ma(parts: JobParts) -> float:
    """All inputs that the turn-on holds in the end; a remote output passes on what it gets."""
    own = parts.converter.remote_in.draw_ma if parts.converter.remote_in else 0.0
    return own + sum(followers(parts).values())


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

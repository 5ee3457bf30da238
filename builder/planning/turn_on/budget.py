"""What hangs on the turn-on of a job: who draws what, what a restart asks, what waking costs."""

from __future__ import annotations

from dataclasses import dataclass

from builder.figures import share_percent, shown, small_current
from builder.model.house_defaults import HouseDefaults
from builder.planning.objections import Objection, object_to
from builder.planning.pack_details import HoldUpPart, PackFlag, TurnOnDraw
from builder.planning.plan import Reason, TurnOn
from builder.planning.tables import (
    AMPLIFIER_RECORD,
    COMMON_PRACTICE,
    DEVICE_RECORD,
    INTERFACE_RECORD,
    JOB_RECORD,
    RECORD,
)
from builder.planning.turn_on.loads import (
    WAKES_BY_ITSELF,
    followers,
    place_of,
    source_draw_ma,
    turn_on_pin,
)
from builder.planning.turn_on.restart_hold_up import restart_hold_up
from builder.planning.turn_on.staying_awake import latch_loss
from builder.planning.work_pack import JobParts
from builder.proof.pin_readings import is_logic_level

CAR_FUSE = "the car's own fuse there"
SETTLING_MIN_S = 1.0
"""Least time between converter and amplifier coming on. Common practice, no source. [s]"""


@dataclass(frozen=True, slots=True)
class TurnOnBudget:
    """The loads of each turn-on output, and what follows from them and from the car."""

    draws: tuple[TurnOnDraw, ...]
    hold_up: HoldUpPart | None
    latch_ah_per_day: float | None
    reasons: tuple[Reason, ...]
    flags: tuple[PackFlag, ...]
    objections: tuple[Objection, ...]


def budget_turn_on(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> TurnOnBudget:
    """Return the budget of a chosen turn-on."""
    draws = _draws(parts, turn_on)
    flags = [*_weak(draws, defaults), *_coils(parts)]
    hold_up, held_reasons, held_flags = restart_hold_up(parts, turn_on, defaults)
    latch, latch_reasons, latch_flags = latch_loss(parts, turn_on, defaults)
    return TurnOnBudget(
        draws,
        hold_up,
        latch,
        (
            *_draw_reasons(parts, turn_on, draws),
            *_settling_reasons(parts, hold_up),
            *_driver(parts, turn_on, defaults),
            *held_reasons,
            *latch_reasons,
        ),
        (*flags, *held_flags, *latch_flags),
        (*_overdrawn(draws), *_nothing_switches(parts, turn_on)),
    )


def _draws(parts: JobParts, turn_on: TurnOn) -> tuple[TurnOnDraw, ...]:
    converter, behind = parts.converter, followers(parts)
    found = []
    if turn_on.kind not in WAKES_BY_ITSELF and turn_on.kind != "none":
        feeds = () if converter.remote_in is None else (converter.name,)
        feeds = feeds if converter.remote_out else (*feeds, *behind)
        draw = source_draw_ma(parts) if turn_on.draw_ma is None else turn_on.draw_ma
        limit = _limit(parts, turn_on)
        found.append(_draw(_source(parts, turn_on), feeds, draw, turn_on.capacity_ma, limit))
    if converter.remote_out is not None and behind:
        found.append(
            _draw(
                _output(converter.name),
                tuple(behind),
                sum(behind.values()),
                converter.remote_out.max_ma,
            )
        )
    return tuple(found)


def _output(device: str) -> str:
    return f"turn-on output of {device}"


def _source(parts: JobParts, turn_on: TurnOn) -> str:
    """What the job is switched on from, by its name."""
    if turn_on.interface is not None:
        return _output(parts.shelf.interfaces[turn_on.interface].name)
    return place_of(turn_on)


def _limit(parts: JobParts, turn_on: TurnOn) -> str:
    """What says how much a wire of the car gives, where no record of the wire itself does."""
    pin = turn_on_pin(parts.vehicle, turn_on)
    of_fuse = pin is not None and pin.max_source_ma is None and turn_on.capacity_ma is not None
    return CAR_FUSE if of_fuse and turn_on.interface is None else ""


def _draw(
    output: str, feeds: tuple[str, ...], draw_ma: float, capacity_ma: float | None, limit: str = ""
) -> TurnOnDraw:
    share = None if capacity_ma is None else draw_ma / capacity_ma
    return TurnOnDraw(output, feeds, draw_ma, capacity_ma, share, limit)


def _settling_reasons(parts: JobParts, hold_up: HoldUpPart | None) -> list[Reason]:
    """The amplifier comes on after the converter has settled, or the speakers thump."""
    remote = parts.converter.remote_out
    if remote is None:
        because = "nothing delays the amplifier, so listen for a thump when switching on and off"
        return [Reason("amplifier and converter come on together", because, DEVICE_RECORD)]
    if remote.delay_s is None:
        return []
    early = remote.delay_s < SETTLING_MIN_S
    because = (
        f"{shown(remote.delay_s, beside=SETTLING_MIN_S)} s, at least {shown(SETTLING_MIN_S)} s"
    )
    because += ": add a delay, or it may thump" if early else ", off before the converter falls"
    if hold_up is not None and hold_up.after_s is not None:
        because += (
            f", but for the hold-up, which keeps what it feeds on for up to "
            f"{shown(hold_up.after_s, 1)} s: listen for a thump at switching off"
        )
    return [Reason("the amplifier comes on after the converter", because, COMMON_PRACTICE)]


def _draw_reasons(parts: JobParts, turn_on: TurnOn, draws: tuple[TurnOnDraw, ...]) -> list[Reason]:
    reasons = []
    for draw in draws:
        decision = f"{draw.output} switches {', '.join(draw.feeds)}"
        because = f"{draw.draw_ma:g} mA"
        because += (
            "; what it can give is not recorded"
            if draw.capacity_ma is None or draw.share is None
            else f" of {given_words(draw, draw.capacity_ma)}, {share_percent(draw.share)}"
        )
        reasons.append(Reason(decision, because, _records(parts, turn_on, draw)))
    return reasons


def given_words(draw: TurnOnDraw, capacity_ma: float) -> str:
    """Return what an output gives, and whose limit that is: a fuse of the car is none of ours."""
    return f"{small_current(capacity_ma)}{f' ({draw.limit})' if draw.limit else ''}"


def _records(parts: JobParts, turn_on: TurnOn, draw: TurnOnDraw) -> str:
    """Whose records say what is given and what is taken."""
    given = INTERFACE_RECORD if turn_on.interface is not None else RECORD
    own = draw.output == _output(parts.converter.name)
    found = [DEVICE_RECORD if own else given]
    for name in draw.feeds:
        known = AMPLIFIER_RECORD if name in parts.amplifiers else JOB_RECORD
        found.append(DEVICE_RECORD if name == parts.converter.name else known)
    return "; ".join(dict.fromkeys(found))


def _weak(draws: tuple[TurnOnDraw, ...], defaults: HouseDefaults) -> list[PackFlag]:
    """Outputs loaded beyond the house's share; beyond all they have, no plan is given."""
    found = []
    for draw in draws:
        if draw.capacity_ma is None or draw.draw_ma <= defaults.source_share * draw.capacity_ma:
            continue
        takes = shown(draw.draw_ma, beside=draw.capacity_ma)
        says = f"{takes} mA from {draw.output}, which gives {shown(draw.capacity_ma)} mA"
        stops = draw.draw_ma > draw.capacity_ma
        found.append(
            PackFlag("turn_on_weak", draw.output, says, draw.draw_ma, draw.capacity_ma, "mA", stops)
        )
    return found


def _overdrawn(draws: tuple[TurnOnDraw, ...]) -> list[Objection]:
    return [
        object_to(
            f"{draw.output} is asked for too much",
            f"{draw.draw_ma:g} mA for {', '.join(draw.feeds)}, it gives {draw.capacity_ma:g} mA. "
            "Let a relay with its own supply switch them",
            DEVICE_RECORD,
        )
        for draw in draws
        if draw.capacity_ma is not None and draw.draw_ma > draw.capacity_ma
    ]


def _coils(parts: JobParts) -> list[PackFlag]:
    return [
        PackFlag(
            "coil_without_diode",
            load.name,
            f"the coil of {load.name} kicks back when it lets go; put a diode across it",
            load.draw_ma,
            None,
            "mA",
        )
        for load in parts.job.other_turn_on_loads
        if load.coil and load.diode != "yes"
    ]


def _nothing_switches(parts: JobParts, turn_on: TurnOn) -> list[Objection]:
    """A converter that wakes by itself and has no output to wake the amplifier with."""
    if turn_on.kind not in WAKES_BY_ITSELF or parts.converter.remote_out is not None:
        return []
    because = (
        f"{parts.converter.name} wakes by itself and has no turn-on output, so nothing switches "
        f"{', '.join(followers(parts))} on"
    )
    return [object_to("nothing switches the amplifier on", because, DEVICE_RECORD)]


def _driver(parts: JobParts, turn_on: TurnOn, defaults: HouseDefaults) -> list[Reason]:
    pin = turn_on_pin(parts.vehicle, turn_on)
    if pin is None or not is_logic_level(pin, defaults):
        return []
    because = (
        f"{pin.level_v:g} V does not switch a 12 V input; the driver takes 12 V at the amplifier"
    )
    return [Reason("a transistor or relay driver at the turn-on", because, COMMON_PRACTICE)]

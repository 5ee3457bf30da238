"""The work in order: each step, the gate before it, and what may not be done yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.planning.pack_details import HoldUpPart
from builder.planning.plan import Plan
from builder.planning.route_zones import restraint_zones_touched
from builder.planning.selection import Selection
from builder.planning.turn_on_loads import WAKES_BY_ITSELF
from builder.planning.work_pack import BayTest, JobParts, Step

_NO_WAIT = (
    "nobody recorded how long this car's restraint system holds its charge: look it up in the "
    "maker's instructions"
)


def work_steps(
    parts: JobParts,
    plan: Plan,
    selection: Selection,
    tests: tuple[BayTest, ...],
    hold_up: HoldUpPart | None,
) -> tuple[Step, ...]:
    """Return every step, numbered. Trim goes back only after the last test."""
    steps = (
        *_before(parts, tests),
        *_safety(parts),
        *_radio_out(parts),
        *_dead_readings(tests),
        *_build(parts, plan, selection, hold_up),
        *_bench(parts, selection, tests),
        *_close(tests),
    )
    return tuple(replace(step, number=at) for at, step in enumerate(steps, 1))


def probe_steps(parts: JobParts, tests: tuple[BayTest, ...]) -> tuple[Step, ...]:
    """Return what is done while something is still open: measure, write down, join nothing."""
    said = (
        *_before(parts, tests),
        *_probe_dead(parts, tests),
        _step("before", "send the readings in with the record; the plan is made again from them"),
        _step("before", "join nothing until that is done", blocked="the readings are not in yet"),
    )
    return tuple(replace(step, number=at) for at, step in enumerate(said, 1))


def _step(phase: str, text: str, gate: str = "", blocked: str = "") -> Step:
    return Step(0, phase, text, gate, blocked)


def _span(tests: tuple[BayTest, ...], phase: str) -> str:
    ids = [test.id for test in tests if test.phase == phase]
    return "" if not ids else ids[0] if len(ids) == 1 else f"{ids[0]} to {ids[-1]}"


def _before(parts: JobParts, tests: tuple[BayTest, ...]) -> Iterator[Step]:
    yield _step(
        "before", "write down faults, lit lamps, radio presets and code, clock, window positions"
    )
    for caution in parts.vehicle.safety.cautions:
        yield _step("before", f"mind: {caution}")
    if parts.vehicle.safety.high_voltage_zones or parts.vehicle.features.hybrid != "no":
        yield _step("before", _high_voltage(parts))
    live = [test for test in tests if test.phase == "before" and not _is_dead(test)]
    if live:
        text = f"take the readings that need power, plugs home and back-probed: {_ids(live)}"
        yield _step("before", text, _PROVED)


def _is_dead(test: BayTest) -> bool:
    """Whether a reading is taken with the plug off or the battery off."""
    return test.state in ("unplugged", "battery_off")


def _ids(tests: Sequence[BayTest]) -> str:
    """Numbers of lines in short: "T1 to T4, T7"."""
    runs: list[list[int]] = []
    for number in (int(test.id.removeprefix("T")) for test in tests):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"T{run[0]} to T{run[-1]}" if len(run) > 1 else f"T{run[0]}" for run in runs)


def _dead_readings(tests: tuple[BayTest, ...]) -> Iterator[Step]:
    """Ohms of pins: only now is the circuit dead and may the plug come off."""
    dead = [test for test in tests if test.phase == "before" and _is_dead(test)]
    if dead:
        text = f"plugs off, then the readings on dead circuits: {_ids(dead)}"
        yield _step("before", text, _PROVED)


_PROVED = "every pin reads as its band says; one that does not ends the job here"


def _high_voltage(parts: JobParts) -> str:
    zones = ", ".join(parts.vehicle.safety.high_voltage_zones) or "not recorded"
    return (
        f"orange cables ({zones}): stay 0.10 m away with every lead and tool, share no grommet, "
        "pull no service plug"
    )


def _safety(parts: JobParts) -> Iterator[Step]:
    yield _step("before", "key off, key away from the car, then the battery negative off")
    wait = parts.vehicle.safety.restraint_wait_min
    text = "wait before anything near a restraint part is unplugged"
    if wait is None:
        yield _step("before", text, "battery negative off at __:__, earliest __:__", _NO_WAIT)
    else:
        gate = f"battery negative off at __:__, earliest __:__ ({wait:g} min later)"
        yield _step("before", f"{text}: {wait:g} min, the maker's figure", gate)
    for zone in restraint_zones_touched(parts.job, parts.vehicle):
        yield _step(
            "before",
            f"restraint part near the work: {zone}. Slide a seat on its rails only; unbolt or "
            "unplug there only now. Never probe, tap, tie to or ground on yellow plugs and sleeves",
            "after the wait; never switch on with such a plug apart",
        )


def _probe_dead(parts: JobParts, tests: tuple[BayTest, ...]) -> Iterator[Step]:
    """The same order for who only measures: nothing comes apart before the battery is off."""
    dead = list(_dead_readings(tests))
    if dead:
        yield from _safety(parts)
        yield from _radio_out(parts)
        yield from dead


def _radio_out(parts: JobParts) -> Iterator[Step]:
    removal = parts.vehicle.radio.removal
    for hazard in removal.hazards if removal else ():
        yield _step("before", f"mind: {hazard}")
    for text in removal.steps if removal else ():
        yield _step("before", f"radio out: {text}")


def _build(
    parts: JobParts, plan: Plan, selection: Selection, hold_up: HoldUpPart | None
) -> Iterator[Step]:
    yield _step("build", "lay every cable dry, everything in its final place, then cut")
    yield _step("build", "label both ends and the middle of every jacket before it is stripped")
    for tap in selection.broken:
        fed = tap.converter_input > 0
        yield _step("build", _break_text(tap.pair.channel, _cavities(tap.pair), fed=fed))
    for tap in selection.listening:
        yield _step(
            "build",
            f"{tap.pair.channel} ({_cavities(tap.pair)}): join beside the wire, leave it whole; "
            "sleeve on first, solder or crimp, stagger the joints",
        )
    yield from _turn_on_steps(parts, plan, hold_up)
    yield _step("build", _power_text(parts))
    yield _step("build", "close off every spare conductor and every open end by itself")


def _cavities(pair: object) -> str:
    legs = getattr(pair, "legs", ())
    return " and ".join(leg.name for leg in legs)


def _break_text(channel: str, cavities: str, *, fed: bool) -> str:
    goes = "to the converter" if fed else "closed off, each leg by itself"
    return (
        f"{channel} ({cavities}): cut at least 75 mm from the plug or use a pair of mating plugs; "
        f"radio end {goes}, speaker end to the amplifier's return. The two ends never meet again"
    )


def _turn_on_steps(parts: JobParts, plan: Plan, hold_up: HoldUpPart | None) -> Iterator[Step]:
    turn_on = plan.turn_on
    if turn_on.kind in WAKES_BY_ITSELF:
        yield _step("build", f"no turn-on wire: set {parts.converter.name} to wake by itself")
    elif turn_on.kind != "none":
        where = turn_on.fuse_position or f"{turn_on.plug}.{turn_on.cavity}"
        fuse = " behind a 1 A fuse of its own" if turn_on.fuse_position else ""
        target = parts.converter.name if parts.converter.remote_in else "the amplifier"
        yield _step("build", f"turn-on from {where} to {target}{fuse}")
    if hold_up is not None:
        yield _step(
            "build",
            f"{hold_up.capacitor_uf:g} µF, 25 V, from the turn-on to ground behind a diode; it "
            f"charges through {hold_up.charge_ohm:g} Ω and feeds through a diode across that",
        )


def _power_text(parts: JobParts) -> str:
    own = parts.converter.supply
    said = "supply, ground and fuse holders; the main fuse stays out"
    return said if own is None else f"{said}. {parts.converter.name} hangs on the amplifier's " \
        f"terminals through {own.fuse_a:g} A"  # fmt: skip


def _bench(parts: JobParts, selection: Selection, tests: tuple[BayTest, ...]) -> Iterator[Step]:
    yield _step("build", f"take the readings {_span(tests, 'build')}", "all within their bands")
    touched = restraint_zones_touched(parts.job, parts.vehicle)
    for number, text in enumerate(_RECONNECT, 1):
        gate = "every restraint plug home" if touched and number == 4 else ""
        yield _step("bench", f"reconnect, {number} of {len(_RECONNECT)}: {text}", gate)
    yield _step(
        "bench",
        "all gains at least, amplifier filters flat, bass correction and equaliser off, radio at "
        "its loudest clean step",
    )
    yield _step(
        "bench",
        f"take the readings {_span(tests, 'bench')}; doors first, the subwoofer last, and by ear "
        "afterwards only downwards",
        "all within their bands",
    )


_RECONNECT = (
    "main fuse out",
    "amplifier end",
    "ground",
    "battery negative",
    "main fuse last",
)
"""The order in which a spark has nowhere to be."""


def _close(tests: tuple[BayTest, ...]) -> Iterator[Step]:
    yield _step(
        "close", f"take the readings {_span(tests, 'close')}", "no trim before the last has passed"
    )
    yield _step("close", "fill in gains, volume step and readings; send them in with the record")
    yield _step("close", "trim back, then the customer's sheet")

"""The work in order: each step, the gate before it, and what may not be done yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder.planning.bay.fixing_steps import fixing_steps
from builder.planning.bay.second_battery_lines import negatives, negatives_on
from builder.planning.bay.step_line import step
from builder.planning.bay.tune_steps import SPEAKERS_OFF, tune_steps
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.car.route_zones import restraint_zones_touched
from builder.planning.car.selection import Selection
from builder.planning.plan import Plan
from builder.planning.sheet_rows import Step
from builder.planning.tune_sheet import TuneRow
from builder.planning.turn_on.loads import WAKES_BY_ITSELF
from builder.planning.views.loom_steps import RING_OUT_GATE
from builder.planning.words import Phase
from builder.planning.work_pack import BayTest, JobParts

_NO_WAIT = (
    "nobody recorded how long this car's restraint system holds its charge: look it up in the "
    "maker's instructions"
)


def work_steps(
    parts: JobParts,
    plan: Plan,
    selection: Selection,
    tests: tuple[BayTest, ...],
    joining: Sequence[Step],
    tune: tuple[TuneRow, ...],
    at_table: Sequence[Step],
    fuses_in: Sequence[Step],
) -> tuple[Step, ...]:
    """Return every step, numbered. Trim goes back only after the last test.

    Looms are made and rung out `at_table`, before the car is touched; `fuses_in` comes when all
    that is read on the dead circuit has passed.
    """
    steps = (
        *_rung_out(at_table, tests),
        *_before(parts, tests),
        *_safety(parts),
        *_radio_out(parts, tests),
        *_dead_readings(tests),
        *fixing_steps(parts.job),
        *joining,
        *_set_before_power(parts, plan, selection),
        *_bench(parts, tests, tune, fuses_in),
        *_close(tests),
    )
    return tuple(replace(step, number=at) for at, step in enumerate(steps, 1))


def probe_steps(parts: JobParts, tests: tuple[BayTest, ...]) -> tuple[Step, ...]:
    """Return what is done while something is still open: measure, write down, join nothing."""
    said = (
        *_before(parts, tests),
        *_probe_dead(parts, tests),
        step("before", "send the readings in with the record; the plan is made again from them"),
        step("before", "join nothing until that is done", blocked="the readings are not in yet"),
    )
    return tuple(replace(step, number=at) for at, step in enumerate(said, 1))


def _rung_out(at_table: Sequence[Step], tests: Sequence[BayTest]) -> Iterator[Step]:
    """The steps at the table; the gate of each loom is a line of the sheet, in the same order."""
    gates = (test for test in tests if _is_gate(test))
    for each in at_table:
        gate = next(gates, None) if each.gate == RING_OUT_GATE else None
        yield each if gate is None else replace(each, text=f"{each.text}: {_tests([gate])}")


def _before(parts: JobParts, tests: tuple[BayTest, ...]) -> Iterator[Step]:
    yield step(
        "before", "write down faults, lit lamps, radio presets and code, clock, window positions"
    )
    for caution in parts.vehicle.safety.cautions:
        yield step("before", f"mind: {caution}")
    if parts.vehicle.safety.high_voltage_zones or parts.vehicle.features.hybrid != "no":
        yield step("before", _high_voltage(parts))
    live = [
        test
        for test in tests
        if test.phase == "before" and not _is_dead(test) and not _is_gate(test)
    ]
    if live:
        text = f"take the readings that need power, plugs home and back-probed: {_tests(live)}"
        yield step("before", text, _PROVED)


def _is_dead(test: BayTest) -> bool:
    """Whether a reading is taken with the plug off or the battery off."""
    return test.state in ("unplugged", "battery_off")


def _is_gate(test: BayTest) -> bool:
    """Whether a line is about something that is not in the car yet."""
    return test.state == "step"


def _tests(tests: Sequence[BayTest]) -> str:
    """Lines of the sheet by their running number, in short: "tests 1 to 4, 7"."""
    runs: list[list[int]] = []
    for test in tests:
        if runs and test.number == runs[-1][-1] + 1:
            runs[-1].append(test.number)
        else:
            runs.append([test.number])
    spans = (f"{run[0]} to {run[-1]}" if len(run) > 1 else f"{run[0]}" for run in runs)
    return f"{'test' if len(tests) == 1 else 'tests'} {', '.join(spans)}"


def _of(tests: Sequence[BayTest], phase: Phase) -> str:
    return _tests([test for test in tests if test.phase == phase])


def _dead_readings(tests: tuple[BayTest, ...]) -> Iterator[Step]:
    """Ohms of pins: only now is the circuit dead and may the plug come off."""
    dead = [test for test in tests if test.phase == "before" and _is_dead(test)]
    if dead:
        text = f"plugs off, then the readings on dead circuits: {_tests(dead)}"
        yield step("before", text, _PROVED)


_PROVED = "every pin reads as its band says; one that does not ends the job here"


def _high_voltage(parts: JobParts) -> str:
    zones = ", ".join(parts.vehicle.safety.high_voltage_zones) or "not recorded"
    return (
        f"orange cables ({zones}): stay 0.10 m away with every lead and tool, share no grommet, "
        "pull no service plug"
    )


def _safety(parts: JobParts) -> Iterator[Step]:
    off = negatives(parts.job.supply)
    yield step("before", f"key off, key away from the car, then {off}")
    wait = parts.vehicle.safety.restraint_wait_min
    text = "wait before anything near a restraint part is unplugged"
    if wait is None:
        yield step("before", text, "battery negative off at __:__, earliest __:__", _NO_WAIT)
    else:
        gate = f"battery negative off at __:__, earliest __:__ ({wait:g} min later)"
        yield step("before", f"{text}: {wait:g} min, the maker's figure", gate)
    for zone in restraint_zones_touched(parts.job, parts.vehicle):
        yield step(
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
        yield from _radio_out(parts, tests)
        yield from dead


def _radio_out(parts: JobParts, tests: Sequence[BayTest]) -> Iterator[Step]:
    """How the radio comes out, where a wire behind it is read or joined."""
    read = {test.reading.plug for test in tests if test.reading and test.reading.plug}
    elsewhere = {plug.id for plug in parts.vehicle.plugs if plug.unit == "amplifier"}
    removal = None if read <= elsewhere else parts.vehicle.radio.removal
    for hazard in removal.hazards if removal else ():
        yield step("before", f"mind: {hazard}")
    for text in removal.steps if removal else ():
        yield step("before", f"radio out: {text}")


def _bench(
    parts: JobParts,
    tests: tuple[BayTest, ...],
    tune: tuple[TuneRow, ...],
    fuses_in: Sequence[Step],
) -> Iterator[Step]:
    yield step("build", f"take {_of(tests, 'build')}", "all within their bands")
    yield step("build", SPEAKERS_OFF)
    yield from fuses_in
    touched = restraint_zones_touched(parts.job, parts.vehicle)
    order = [text.format(negatives_on(parts.job.supply)) for text in _RECONNECT]
    for number, text in enumerate(order, 1):
        gate = "every restraint plug home" if touched and number == 4 else ""
        yield step("bench", f"reconnect, {number} of {len(_RECONNECT)}: {text}", gate)
    yield from tune_steps([test for test in tests if test.phase == "bench"], tune, _tests)


def _set_before_power(parts: JobParts, plan: Plan, selection: Selection) -> Iterator[Step]:
    """What is set or unplugged by hand before anything is powered."""
    if plan.turn_on.kind in WAKES_BY_ITSELF:
        yield step("build", f"no turn-on wire: set {parts.converter.name} to wake by itself")
    for speaker in parts.job.speakers:
        if speaker.driven_by.bridged_with is not None:
            yield step("build", _BRIDGED.format(speaker.amplifier, speaker.channel_name))
    if microphones_out(parts.vehicle, selection):
        yield step("build", _MICROPHONES)


_BRIDGED = (
    "{0}, channels {1}: bridge switch on, the speaker on the two terminals that it marks for it"
)
_MICROPHONES = (
    "noise cancellation: unplug its microphones, close their plugs off and write down where each "
    "one is; it was tuned for the car's own bass"
)


_RECONNECT = (
    "main fuse out",
    "amplifier end",
    "ground",
    "{0}",
    "main fuse last",
)
"""The order in which a spark has nowhere to be."""


def _close(tests: tuple[BayTest, ...]) -> Iterator[Step]:
    yield step("close", f"take {_of(tests, 'close')}", "no trim before the last has passed")
    yield step("close", "fill in gains, volume step and readings; send them in with the record")
    yield step("close", "trim back, then the customer's sheet")

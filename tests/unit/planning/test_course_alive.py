"""What is on while hands work, what a radio forgets with its battery, what lives in which state."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import pytest
from circuit_checks import circuit_of
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.model.words import Function, State
from builder.planning.course.simulate import broken
from builder.planning.sheet_rows import Stands, Step
from builder.planning.work_pack import BayTest
from builder.proof.signatures.of_pins import kinds_of_function

JOBS = [name for name in SHIPPED if shipped_pack(name).circuit]
PULLED = [
    name
    for name in JOBS
    if any(each.speakers_pull_off for each in shipped_parts(name).amplifiers.values())
]


def faults(name: str, steps: Sequence[Step]) -> str:
    pack = shipped_pack(name)
    return "\n".join(broken(steps, pack.tests, circuit_of(pack), shipped_parts(name)))


def without(steps: Sequence[Step], what: str, *values: str) -> list[Step]:
    return [
        replace(
            step,
            moves=tuple(x for x in step.moves if x.what != what or (values and x.value in values)),
        )
        for step in steps
    ]


@pytest.mark.parametrize("name", PULLED)
def test_a_speaker_plug_goes_into_an_amplifier_that_is_off(name: str) -> None:
    pack = shipped_pack(name)
    key = "off"
    found = 0
    for step in pack.steps:
        for moved in step.moves:
            key = moved.value if moved.what == "key" else key
            if moved.what.startswith("speakers of") and moved.value == "on":
                assert key in ("off", "asleep")
                assert step.makes or "its turn-on let go" in step.text
                found += 1
    assert found
    left_on = [
        replace(step, moves=tuple(
            replace(each, value="accessory") if each == Stands("key", "off") else each
            for each in step.moves
        ))
        if any(each.what.startswith("speakers of") for each in step.moves) else step
        for step in pack.steps
    ]  # fmt: skip
    if left_on != list(pack.steps):
        assert "are joined while it is on" in faults(name, left_on)


@pytest.mark.parametrize("name", JOBS)
def test_the_radio_has_its_code_and_settings_before_it_plays(name: str) -> None:
    pack = shipped_pack(name)
    assert not faults(name, pack.steps)
    forgot = faults(name, without(pack.steps, "radio's settings", "none"))
    assert "without the settings that it lost" in forgot
    assert "at the end radio's settings is absent" in forgot
    first = next(x for x in pack.steps if Stands("radio's settings", "set") in x.moves)
    assert "radio's code where it asks for one" in first.text


@pytest.mark.parametrize("name", JOBS)
def test_the_way_back_notes_and_brings_back_what_the_radio_forgets(name: str) -> None:
    lines = list(shipped_pack(name).revert)
    (noted,) = [at for at, x in enumerate(lines) if x.startswith("Write down ") and "code" in x]
    off = [at for at, line in enumerate(lines) if "battery negative off" in line]
    again = [at for at, line in enumerate(lines) if "code, balance, fader and tone set" in line]
    plays = [at for at, line in enumerate(lines) if "radio on, tuner" in line.lower()]
    assert off and noted < off[0] < again[0] <= plays[0] and len(again) == 1


def lines_of_functions(name: str) -> Iterator[tuple[BayTest, Function]]:
    pins = {
        f"{plug.id}.{pin.cavity}": pin.function
        for plug in shipped_parts(name).vehicle.plugs
        for pin in plug.pins
    }
    for test in shipped_pack(name).tests:
        if "passed-on" in test.id and "seated" not in test.id:
            yield from ((test, pins[end]) for end in test.probes if end in pins)


def is_dead(function: Function, state: State) -> bool:
    """Whether every signature that a function may have says that it reads nothing there."""
    kinds = kinds_of_function(function, HOUSE)
    rows = [[x for x in each.rows if state in x.states and x.quantity == "dc_v"] for each in kinds]
    dead = [
        any(row.strict and row.high is not None and row.high[0] == 0 and row.high[1] < 1
            for row in each)
        for each in rows
    ]  # fmt: skip
    return bool(dead) and all(dead)


def test_the_table_of_signatures_knows_dead_from_alive() -> None:
    assert is_dead("reverse", "accessory") and not is_dead("reverse", "run")
    assert is_dead("illumination", "lights_off") and not is_dead("illumination", "lights_on")


@pytest.mark.parametrize("name", JOBS)
def test_what_a_loom_passes_on_is_looked_at_where_it_lives(name: str) -> None:
    """A radio is listened to with its key at accessory, so what is dead there is looked at else."""
    keyed: dict[str, tuple[State, ...]] = {
        "radio_on_zero": ("radio_on_zero", "accessory"), "tuner": ("tuner", "accessory"),
    }  # fmt: skip
    for test, function in lines_of_functions(name):
        if function in ("ground", "shield"):  # at 0 V whenever they work
            continue
        states = keyed.get(test.state, (test.state,))  # type: ignore[arg-type]
        assert not any(is_dead(function, state) for state in states), (test.id, function)
        if function in ("reverse", "camera_signal"):
            assert "reverse gear in" in test.what and test.state == "run"
        if function == "park_brake":
            assert "parking brake off and on" in test.what and test.state == "run"
        if function in ("illumination", "illumination_return"):
            assert test.state == "lights_on"


@pytest.mark.parametrize("name", JOBS)
def test_nobody_drives_before_the_restraint_lamp_was_looked_at(name: str) -> None:
    tests = shipped_pack(name).tests
    drives = [at for at, test in enumerate(tests) if "on a drive" in test.what]
    lamp = [at for at, test in enumerate(tests) if test.id in ("restraint-lamp", "radio-home")]
    assert len(lamp) == 2 and all(max(lamp) < at for at in drives)
    assert drives in ([], [len(tests) - 1])

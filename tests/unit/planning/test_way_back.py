"""The way back to stock walked through: it can be carried out, and leaves nothing of the job."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.circuit.model import Circuit
from builder.planning.course.joined import Joined
from builder.planning.course.model import Change, Course, Problem
from builder.planning.course.search import shortest
from builder.planning.course.simulate_back import broken_back
from builder.planning.job import in_order
from builder.planning.job.make_pack import make_pack
from builder.planning.words import BLOCK

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


@cache
def way(name: str) -> tuple[Problem, Course]:
    found: list[Problem] = []

    def noting(problem: Problem) -> Course:
        found.append(problem)
        return shortest(problem)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(in_order, "shortest", noting)
        make_pack(shipped_parts(name), defaults=HOUSE)
    (problem,) = found
    return problem, shortest(problem)


def circuit_of(name: str) -> Circuit:
    circuit = shipped_pack(name).circuit
    assert circuit is not None
    return circuit


@pytest.mark.parametrize("name", JOBS)
def test_it_can_be_carried_out_and_leaves_the_car_as_it_came(name: str) -> None:
    problem, course = way(name)
    assert course.missing == ()
    assert list(broken(name, problem, course)) == []


@pytest.mark.parametrize("name", JOBS)
def test_a_move_left_out_is_noticed(name: str) -> None:
    problem, course = way(name)
    for at, move in enumerate(course.moves):
        key = isinstance(move, Change) and (move.rank == "key" or move.to == "waited")
        if not key and (isinstance(move, Change) or move.makes or move.does):
            less = replace(course, moves=(*course.moves[:at], *course.moves[at + 1 :]))
            assert list(broken(name, problem, less)), move


@pytest.mark.parametrize("name", ["teasel-four-doors", "tarn-subwoofer"])
def test_without_the_wait_a_restraint_part_is_touched(name: str) -> None:
    problem, course = way(name)
    hurried = tuple(x for x in course.moves if not (isinstance(x, Change) and x.to == "waited"))
    said = list(broken(name, problem, replace(course, moves=hurried)))
    assert any("before the wait is over" in each for each in said)


def broken(name: str, problem: Problem, course: Course) -> list[str]:
    joined = Joined(circuit_of(name))
    return list(broken_back(course, problem.begins, joined, shipped_parts(name)))


@pytest.mark.parametrize("name", JOBS)
def test_every_device_loom_lead_holder_and_hazard_has_its_line(name: str) -> None:
    parts, circuit, revert = shipped_parts(name), circuit_of(name), shipped_pack(name).revert
    text = "\n".join(revert).lower()
    replaced = {joint.place for joint in circuit.joints if joint.undone == "put_back"}
    for unit in circuit.units:
        out = [line for line in revert if line.lower().startswith(unit.id.lower())
               and " out: every end out" in line]  # fmt: skip
        ours = unit.kind in ("converter", "amplifier", "distribution", "driver", "turn_on_load",
                             "battery_joiner")  # fmt: skip
        new = unit.kind == "speaker" and unit.place not in replaced
        assert len(out) == (ours or new or unit.id == "second battery"), unit
        if unit.kind in ("loom", "interface"):
            said = (f"unplug {unit.id.lower()} at", f"unplug the data interface {unit.id.lower()}.")
            assert any(each in text for each in said), unit
    for part in circuit.elements:
        if not part.loom and part.kind != "coil":
            leaves = part.place == BLOCK or part.kind == "relay"  # with its device
            assert (part.id.lower() in text) != leaves, part
    for wire in circuit.wires:
        assert wire.carries != "line" or wire.piece.lower() in text
    removal = parts.vehicle.radio.removal
    radio = any(line.startswith("Radio out") for line in revert)
    for hazard in removal.hazards if removal and radio else ():
        assert hazard.lower() in text
    off = [piece for piece in parts.vehicle.access if f"\n{piece.name.lower()} off" in f"\n{text}"]
    assert off or not parts.vehicle.access
    assert all(hazard.lower() in text for piece in off for hazard in piece.hazards)


@pytest.mark.parametrize("name", JOBS)
def test_it_ends_with_the_whole_car_read(name: str) -> None:
    revert = shipped_pack(name).revert
    closed = max(n for n, line in enumerate(revert) if "battery negative on" in line
                 or "then the second battery's negative" in line)  # fmt: skip
    last = "\n".join(revert[closed:])
    for words in (
        "radio plays at every speaker",
        "estraint lamp lights",
        "as they were written down",
    ):
        assert words in last, words
    for sound in shipped_parts(name).vehicle.protected_sounds:
        # A call's voice is heard in its self-test, never by placing a call.
        met = "emergency call, its self-test" if "emergency" in sound.sound else sound.sound
        assert met.lower() in last.lower()


def test_a_car_with_nothing_near_a_restraint_part_is_not_waited_for() -> None:
    assert not any("wait" in line.lower() for line in shipped_pack("tansy-subwoofer").revert)
    (wait,) = [x for x in shipped_pack("teasel-four-doors").revert if x.startswith("Wait ")]
    assert "5 min, the maker's figure" in wait and "earliest __:__" in wait

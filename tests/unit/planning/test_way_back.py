"""The way back to stock walked through: it can be carried out, and leaves nothing of the job."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts

from builder.planning.car.access import parts_over, radio_parts
from builder.planning.circuit.index import CircuitIndex
from builder.planning.circuit.model import Circuit
from builder.planning.course import way_back
from builder.planning.course.model import Act, Change, Course, Problem
from builder.planning.course.places import reached_at
from builder.planning.course.search import shortest
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


@cache
def way(name: str) -> tuple[Problem, Course]:
    found: list[Problem] = []

    def noting(problem: Problem) -> Course:
        found.append(problem)
        return shortest(problem)

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(way_back, "shortest", noting)
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
    """Every law that a move breaks, said anew: nothing here asks what a move needs."""
    parts, index = shipped_parts(name), CircuitIndex(circuit_of(name))
    state, said, undone = dict(problem.begins), list[str](), Counter[str]()
    for move in course.moves:
        if isinstance(move, Change):
            said += [f"{move.what}: {each}" for each in _moved(parts, state, move)]
            state = {**state, move.what: move.to, **move.also}
            continue
        undone.update(move.makes)
        said += [f"{move.said.text}: {each}" for each in _worked(parts, index, state, move)]
        state |= move.does
    ours = {x.id for x in index.circuit.joints if x.undone in ("rejoin", "take_off", "put_back")}
    said += [f"{each} is undone {undone[each]} times" for each in ours if undone[each] != 1]
    whole = {"on", "home", "fitted", "absent", "out"}
    free = ("key", "play")
    said += [f"at the end {x} is {y}" for x, y in state.items() if x not in free and y not in whole]
    return said


def _moved(parts: JobParts, state: dict, move: Change) -> list[str]:
    said = []
    own = {part.name: part for part in parts.vehicle.access}
    if state[move.what] not in move.begins:
        said.append(f"is {state[move.what]}")
    if move.what.startswith("plug ") and state["battery"] == "on":
        said.append("moved with the battery on")
    if move.what == "battery" and move.to == "off" and state["main fuse"] == "in":
        said.append("off with the main fuse in")
    near = move.what in own and own[move.what].restraint != "no"
    removal = parts.vehicle.radio.removal
    near |= move.what == "radio" and (removal is None or removal.restraint != "no")
    if near and state["battery"] != "waited":
        said.append("moved before the wait is over")
    if move.what == "radio" and move.to == "pulled":
        said += [f"{x.name} is on" for x in radio_parts(parts.vehicle) if state[x.name] == "on"]
    if move.what == "radio" and move.to == "fitted":
        plugs = [f"plug {x.id}" for x in parts.vehicle.plugs if x.unit == "radio"]
        said += [f"{x} is {state[x]}" for x in plugs if state.get(x, "home") != "home"]
    return said


def _worked(parts: JobParts, index: CircuitIndex, state: dict, act: Act) -> list[str]:
    """Joints are parted with the battery off and nothing before them; readings in the whole car."""
    said = []
    for joint in (index.joints[each] for each in act.makes):
        over = parts_over(parts.vehicle, reached_at(parts.vehicle, joint.place))
        said += [f"{each.name} is on" for each in over if state[each.name] == "on"]
        if state["battery"] == "on":
            said.append("parted with the battery on")
        if any(state.get(what) == "home" for what in _plugs(parts, joint.joins)):
            said.append("parted with its plug home")
    if " out: every end" in act.said.text:
        unit = next(x for x in index.circuit.units if act.said.text.startswith(x.id))
        over = parts_over(parts.vehicle, unit.place)
        said += [f"{each.name} is on" for each in over if state[each.name] == "on"]
    if {"read", "left whole"} & act.tags and state["battery"] != "on":
        said.append("read with the battery off")
    return said


def _plugs(parts: JobParts, ends: tuple[str, ...]) -> list[str]:
    """The plugs whose cavities or wires meet there."""
    own = {f"{plug.id}.{pin.cavity}": plug.id for plug in parts.vehicle.plugs for pin in plug.pins}
    return [f"plug {own[end.split(' ')[0]]}" for end in ends if end.split(" ")[0] in own]


@pytest.mark.parametrize("name", JOBS)
def test_every_device_loom_lead_holder_and_hazard_has_its_line(name: str) -> None:
    parts, circuit, revert = shipped_parts(name), circuit_of(name), shipped_pack(name).revert
    text = "\n".join(revert).lower()
    replaced = {joint.place for joint in circuit.joints if joint.undone == "put_back"}
    for unit in circuit.units:
        out = [line for line in revert if line.lower().startswith(unit.id.lower())
               and " out: every end out" in line]  # fmt: skip
        ours = unit.kind in ("converter", "amplifier", "distribution", "driver")
        new = unit.kind == "speaker" and unit.place not in replaced
        assert len(out) == (ours or new or unit.id == "second battery"), unit
        if unit.kind in ("loom", "interface"):
            said = (f"unplug {unit.id.lower()} at", f"unplug the data interface {unit.id.lower()}.")
            assert any(each in text for each in said), unit
    for part in circuit.elements:
        if not part.loom and part.kind != "coil":
            assert part.id.lower() in text, part
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
    for words in ("radio plays at every speaker", "estraint lamp lights", "as written down"):
        assert words in last, words
    for sound in shipped_parts(name).vehicle.protected_sounds:
        assert sound.sound.lower() in last.lower()


def test_a_car_with_nothing_near_a_restraint_part_is_not_waited_for() -> None:
    assert not any("wait" in line.lower() for line in shipped_pack("tansy-subwoofer").revert)
    (wait,) = [x for x in shipped_pack("teasel-four-doors").revert if x.startswith("Wait ")]
    assert "5 min, the maker's figure" in wait and "earliest __:__" in wait

"""Every course walked through: what the printed steps ask for is so when its turn comes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import pytest
from pack_jobs import HOUSE, SHIPPED, settled, shipped_pack, shipped_parts
from pytest import MonkeyPatch
from test_customer_lines import checked, sketches

from builder.model.access import AccessPart
from builder.planning.car.route_zones import over_orange
from builder.planning.course import make_course
from builder.planning.course.model import Course, Problem
from builder.planning.course.search import shortest
from builder.planning.course.simulate import broken
from builder.planning.course.trade import every_constraint
from builder.planning.job.make_pack import make_pack
from builder.planning.sheet_rows import Stands, Step
from builder.planning.work_pack import WorkPack

JOBS = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]
VEHICLES = [vehicle.id for vehicle in checked()[1]]


def walked(name: str, steps: tuple[Step, ...]) -> list[str]:
    pack = shipped_pack(name)
    assert pack.circuit is not None
    return list(broken(steps, pack.tests, pack.circuit, shipped_parts(name)))


@pytest.mark.parametrize("name", JOBS)
def test_a_shipped_job_can_be_carried_out_and_leaves_the_car_whole(name: str) -> None:
    assert walked(name, shipped_pack(name).steps) == []


@pytest.mark.parametrize("vehicle_id", VEHICLES)
def test_so_can_every_sketch(vehicle_id: str) -> None:
    (vehicle,) = [each for each in checked()[1] if each.id == vehicle_id]
    for pack in sketches(vehicle):
        said = [flag.says for flag in pack.flags if flag.kind == "course_broken"]
        assert said == [], pack.job


@pytest.mark.parametrize("name", JOBS)
def test_a_step_left_out_is_noticed(name: str) -> None:
    """Whichever moves the car, joins or reads: what comes later asks for it, or the end does."""
    steps = shipped_pack(name).steps
    for at, step in enumerate(steps):
        if step.tests or step.makes or _lasts(steps, at):
            assert walked(name, (*steps[:at], *steps[at + 1 :])), step.text


def _lasts(steps: tuple[Step, ...], at: int) -> bool:
    """Whether something moved in a step is asked for by what comes after it."""
    free = {"key", "play", "gains"}
    return any(moved.what not in free for moved in steps[at].moves)


@pytest.mark.parametrize("name", JOBS)
def test_a_battery_that_comes_off_a_step_too_late_is_noticed(name: str) -> None:
    steps = shipped_pack(name).steps
    off = [at for at, step in enumerate(steps) if Stands("battery", "off") in step.moves]
    assert off
    for at in off:
        late = (*steps[:at], steps[at + 1], steps[at], *steps[at + 2 :])
        moved = steps[at + 1].moves
        if not any(each.what == "battery" for each in moved):
            assert walked(name, late), steps[at + 1].text


@pytest.mark.parametrize("name", JOBS)
def test_temporary_changes_are_undone_once_each(name: str) -> None:
    for what, values in _history(shipped_pack(name)).items():
        if what in ("key", "play", "gains", "filters", "main fuse", "cables", "radio's settings"):
            continue
        assert all(one != other for one, other in pairwise(values)), what
        assert values[-1] in ("on", "home", "loomed", "fitted", "in"), (what, values)


def _history(pack: WorkPack) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for step in pack.steps:
        for moved in step.moves:
            found.setdefault(moved.what, []).append(moved.value)
    return found


@pytest.mark.parametrize("name", JOBS)
def test_steps_and_sheet_have_one_order(name: str) -> None:
    pack = shipped_pack(name)
    assert [id for step in pack.steps for id in step.tests] == [test.id for test in pack.tests]
    assert [test.number for test in pack.tests] == list(range(1, len(pack.tests) + 1))


def test_a_restraint_part_is_touched_only_after_the_wait() -> None:
    """In the car whose radio comes out beside one, each way: out, and home again."""
    name = "tarn-subwoofer"
    steps = shipped_pack(name).steps
    assert any(Stands("battery", "waited") in step.moves for step in steps)
    hurried = tuple(_without_wait(steps))
    assert any("the wait is not over" in said for said in walked(name, hurried))


def _without_wait(steps: tuple[Step, ...]) -> Iterator[Step]:
    for step in steps:
        if Stands("battery", "waited") not in step.moves:
            yield step


def test_loud_before_the_filters_is_noticed() -> None:
    steps = shipped_pack("tansy-subwoofer").steps
    early = tuple(
        replace(step, moves=()) if Stands("filters", "set") in step.moves else step
        for step in steps
    )
    said = walked("tansy-subwoofer", early)
    assert any("loud before gains and filters" in one for one in said)
    assert any("filter flat" in one for one in said)


@pytest.mark.parametrize("name", ["teasel-four-doors", "leto-four-doors", "sedge-fronts"])
def test_an_engine_with_a_seat_loose_has_a_gate_that_names_the_seat(name: str) -> None:
    steps = shipped_pack(name).steps
    silent = tuple(replace(step, gate="") for step in steps)
    said = walked(name, silent)
    assert said and all("not bolted in" in one for one in said)
    gated = [step for step in steps if "not bolted in" in step.gate]
    after = [steps[step.number] for step in gated]  # numbers run from 1
    assert all({"engine on", "engine cranked"} & {*step.text.replace(",", ";").split("; ")}
               for step in after)  # fmt: skip
    seats = 2 if name == "teasel-four-doors" else 1  # each of them is said by itself
    assert len(gated) == len(said) / seats


def test_an_engine_over_open_orange_cables_has_a_gate_that_names_the_cover() -> None:
    name = "tarn-subwoofer"
    steps = shipped_pack(name).steps
    said = walked(name, tuple(replace(step, gate="") for step in steps))
    assert said and {"orange cables lie open under load floor" in one for one in said} == {True}
    gated = [step for step in steps if "load floor off, orange cables" in step.gate]
    assert len(gated) == len(said)
    closed = next(step for step in steps if Stands("load floor", "on") in step.moves)
    assert all(step.number < closed.number for step in gated)


def test_orange_cables_lie_under_a_part_by_zone_or_by_what_is_minded_there() -> None:
    vehicle = shipped_parts("tarn-subwoofer").vehicle
    parts = {part.name: part for part in vehicle.access}
    assert over_orange(parts["load floor"], vehicle)
    assert not over_orange(parts["vent strip"], vehicle)
    by_zone = replace(parts["vent strip"], uncovers=("under the rear bench",))
    assert over_orange(by_zone, vehicle)
    petrol = replace(vehicle, safety=replace(vehicle.safety, high_voltage_zones=()))
    assert not over_orange(parts["load floor"], petrol)


def test_a_seat_that_stands_out_with_its_plugs_off_keeps_the_engine_off() -> None:
    name = "teasel-four-doors"
    steps = shipped_pack(name).steps
    out = tuple(
        replace(step, moves=tuple(each for each in step.moves if each.value != "loose"))
        for step in steps
    )
    assert any("engine runs while the plugs of" in said for said in walked(name, out))


@pytest.mark.parametrize(
    "name", ["dash-converter", "rook-two-amplifiers", "tansy-two-coils", "tarn-subwoofer"]
)
def test_speaker_ends_that_wait_for_screws_are_capped_before_power(name: str) -> None:
    pack = shipped_pack(name)
    (cap,) = [step for step in pack.steps if step.text.startswith("speaker ends of sub amp")]
    (on,) = [step for step in pack.steps if Stands("speakers of sub amp", "on") in step.moves]
    assert len(cap.lines) == len(on.makes) == len(on.lines)
    bare = tuple(step for step in pack.steps if step is not cap)
    assert any("speaker ends of sub amp hang bare" in said for said in walked(name, bare))


@pytest.mark.parametrize(
    ("name", "place"), [("teasel-subwoofer", "cabin fuse panel"), ("leto-four-doors", "")]
)
def test_a_cover_over_fuse_panel_or_battery_comes_off_and_goes_home(name: str, place: str) -> None:
    parts = shipped_parts(name)
    car = parts.vehicle
    cover = AccessPart(
        name="a lid", kind="cover", uncovers=(place or car.power.battery.location,), restraint="no"
    )
    pack = make_pack(
        replace(parts, vehicle=replace(car, access=(*car.access, cover))), defaults=HOUSE
    )
    assert _history(pack)["a lid"] == ["off", "on"]
    assert [flag.says for flag in pack.flags if flag.kind == "course_broken"] == []


def test_every_row_of_the_trade_binds_acts_of_a_shipped_job(monkeypatch: MonkeyPatch) -> None:
    """A tag that no act has makes a row that keeps nothing in order."""
    tags: set[str] = set()

    def noting(problem: Problem) -> Course:
        tags.update(tag for act in problem.acts for tag in act.tags)
        return shortest(problem)

    monkeypatch.setattr(make_course, "shortest", noting)
    for name in SHIPPED:  # a probe plan once what it waits for is settled
        make_pack(settled(shipped_parts(name)), defaults=HOUSE)
    assert {tag for row in every_constraint() for tag in (row.first, row.then)} - tags == set()


@pytest.mark.parametrize("name", [name for name in JOBS if shipped_parts(name).job.looms])
def test_a_loom_is_rung_out_before_anything_of_the_car_is_moved(name: str) -> None:
    steps = shipped_pack(name).steps
    (rung,) = [at for at, step in enumerate(steps) if step.text.startswith("ring ")]
    assert not any(step.moves for step in steps[:rung])


@pytest.mark.parametrize("name", ["tarn-subwoofer", "teasel-subwoofer", "cutter-fronts"])
def test_nothing_behind_a_radio_beside_a_restraint_part_is_unplugged_before_the_wait(
    name: str,
) -> None:
    """Told twice: the steps have the wait, and without it the walk says so."""
    pack, parts = shipped_pack(name), shipped_parts(name)
    assert pack.circuit is not None
    waits = [step for step in pack.steps if ("battery", "waited") in moves_of(step)]
    assert waits
    hurried = [
        replace(step, moves=tuple(x for x in step.moves if x.value != "waited"))
        for step in pack.steps
    ]
    said = list(broken(hurried, pack.tests, pack.circuit, parts))
    assert any("the wait is not over" in each for each in said)


def moves_of(step: Step) -> list[tuple[str, str]]:
    return [(move.what, move.value) for move in step.moves]

"""A second battery: fused at each end, counted in the state that it feeds, on every sheet."""

from __future__ import annotations

from dataclasses import replace

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import HOUSE, shipped_parts
from spice_checks import check_deck
from test_circuit_faults import noticing, without

from builder.model.job import SecondBattery
from builder.planning.bay.foretold import sound_of
from builder.planning.bay.work import BayWork
from builder.planning.circuit.bench import Bench
from builder.planning.circuit.laws import unfused_wires
from builder.planning.job import make_pack as planner
from builder.planning.power.battery_kinds import battery_kind
from builder.planning.sheet_rows import Stands
from builder.planning.work_pack import JobParts, WorkPack

WAYS = ("relay", "dc_charger", "diode")
JOB = "tansy-two-coils"


def second(joined_by: str = "relay", **changes: object) -> SecondBattery:
    made = SecondBattery(
        type="agm", ah=80, age_years=0, place="right luggage side",
        joined_by=joined_by,  # type: ignore[arg-type]
        charger_a=25 if joined_by == "dc_charger" else None, link_m=5.0, feed_m=0.6, ground_m=0.4,
    )  # fmt: skip
    return replace(made, **changes)  # type: ignore[arg-type]


def with_second(battery: SecondBattery | None, name: str = JOB) -> JobParts:
    parts = shipped_parts(name)
    supply = replace(parts.job.supply, second_battery=battery)
    return replace(parts, job=replace(parts.job, supply=supply))


def made(parts: JobParts) -> WorkPack:
    return planner.make_pack(parts, defaults=HOUSE)


@pytest.mark.parametrize("name", [JOB, "rook-two-amplifiers"])
@pytest.mark.parametrize("way", WAYS)
def test_it_is_on_every_sheet_and_in_the_netlist(way: str, name: str) -> None:
    parts = with_second(second(way), name)
    pack = made(parts)
    check_circuit(parts, pack)
    check_deck(parts, pack)
    assert any(part.item == "second battery" for part in pack.parts)


@pytest.mark.parametrize("way", WAYS)
def test_its_link_has_a_fuse_at_each_end(way: str) -> None:
    circuit = circuit_of(made(with_second(second(way))))
    link = next(each for each in circuit.links if each.id == "link to the second battery")
    kinds = [part.kind for piece in link.path for part in circuit.elements if part.id == piece]
    joins = {"relay": "relay", "dc_charger": "charger", "diode": "diode"}[way]
    assert kinds == ["fuse", joins, "fuse"]
    assert (link.begins, link.finishes) == ("battery +", "second battery +")
    assert list(unfused_wires(circuit, HOUSE)) == []


@pytest.mark.parametrize("way", WAYS)
def test_each_joint_left_open_is_noticed(way: str) -> None:
    seen: list[BayWork] = []
    with pytest.MonkeyPatch.context() as patch:
        sheet = planner.bay_sheet
        patch.setattr(planner, "bay_sheet", lambda work, of: seen.append(work) or sheet(work, of))
        pack = made(with_second(second(way)))
    circuit, work = circuit_of(pack), seen[-1]
    healthy = Bench(circuit, sound_of(work))
    assert noticing(pack, healthy, work, circuit) == []
    about = [
        joint for joint in circuit.joints
        if any("second battery" in end or "fuse of the link" in end for end in joint.joins)
    ]  # fmt: skip
    assert len(about) >= 7
    for joint in about:
        assert noticing(pack, healthy, work, without(circuit, joint.id)), joint


def test_with_the_engine_off_it_feeds_alone() -> None:
    parts = with_second(second())
    pack = made(parts)
    idle = parts.job.supply.idle_a
    assert pack.power is not None and pack.power.listening_h is not None and idle
    kind = battery_kind("agm", HOUSE)
    usable = kind.usable_share * 80 * kind.accepted_share
    assert pack.power.listening_h == pytest.approx(usable / (idle + pack.power.music_current_a))
    assert "AGM battery of 80 Ah" in pack.power.lasts_from
    assert "AGM" not in pack.power.days_from and "60 Ah" in pack.power.days_from
    (said,) = [line for line in pack.customer if "are counted from" in line]
    assert pack.power.lasts_from in said.partition("the days from")[0]
    assert pack.power.days_from in said.partition("the days from")[2]


@pytest.mark.parametrize(
    ("battery", "takes"),
    [(second(), 16.0), (second("dc_charger"), 25.0), (second(type="lithium"), 40.0)],
)
def test_charging_it_counts_against_what_the_car_can_spare(
    battery: SecondBattery, takes: float
) -> None:
    """0.2 A for each ampere-hour, house default; lithium 0.5 A; a charger what it gives."""
    one, none = made(with_second(battery)).power, made(with_second(None)).power
    assert one is not None and none is not None
    assert one.reserve_spare_a is not None and none.reserve_spare_a is not None
    assert none.reserve_spare_a - one.reserve_spare_a == pytest.approx(takes)
    assert one.charging_a == takes and none.charging_a is None


def test_negatives_come_off_the_cars_first_and_go_on_in_reverse() -> None:
    pack = made(with_second(second()))
    both = (
        "the negative of every battery off, the car's first; where the second battery is in, its "
        "own next, and both fuses of the link between them out"
    )
    off = [step.text for step in pack.steps if Stands("battery", "off") in step.moves]
    assert off and all(text.endswith(f"then {both}") for text in off)
    assert sum(f"then {both}" in line for line in pack.revert) == 1
    on = [step.text for step in pack.steps if Stands("battery", "on") in step.moves]
    assert on and all("both fuses of the link between them on" in text for text in on)
    alone = made(with_second(None))
    assert sum("then the battery negative off" in line for line in alone.revert) == 1
    off = [step.text for step in alone.steps if Stands("battery", "off") in step.moves]
    assert off and all(text.endswith("then the battery negative off") for text in off)


def test_a_battery_behind_a_charger_is_asked_for_the_least_volts_of_charging() -> None:
    """Six cells of lead are kept full from 2.2 V a cell on. Common practice (memory)."""
    (line,) = (
        test for test in made(with_second(second("dc_charger"))).tests
        if test.id == "second-battery-link"
    )  # fmt: skip
    assert (line.low, line.high) == (pytest.approx(6 * 2.2), None)


@pytest.mark.parametrize("link_m", [0.8, 4.4])
def test_the_pieces_of_the_link_are_together_as_long_as_it_was_measured_and_sized_for(
    link_m: float,
) -> None:
    pack = made(with_second(second(link_m=link_m)))
    (link,) = [each for each in circuit_of(pack).links if each.id == "link to the second battery"]
    wires = [wire for wire in circuit_of(pack).wires if wire.id in link.path]
    assert len(wires) == 4 and sum(wire.length_m or 0 for wire in wires) == pytest.approx(link_m)
    assert pack.power is not None and pack.power.link_run is not None
    run = pack.power.link_run
    assert run.length_m == pytest.approx(link_m + second().ground_m)
    assert pack.power.all_runs[-1] is run and run not in pack.power.runs
    cut = {row.name: row for row in pack.cut_list}
    assert sum(cut[wire.piece].cut_m for wire in wires) == pytest.approx(link_m)
    assert run.conductor == cut[wires[0].piece].cable


@pytest.mark.parametrize("way", WAYS)
def test_the_link_is_read_to_the_body_before_a_fuse_of_it_goes_home(way: str) -> None:
    pack = made(with_second(second(way)))
    (line,) = [test for test in pack.tests if test.id == "link-insulation"]
    assert (line.quantity, line.low, line.state) == ("ohm", 100_000, "battery_off") and line.since
    at = {id: step.number for step in pack.steps for id in step.tests}
    (fuses,) = [step for step in pack.steps if step.text.startswith("every fuse but the main one")]
    assert at["link-insulation"] < fuses.number
    assert not [t for t in made(with_second(None)).tests if t.id == "link-insulation"]


@pytest.mark.parametrize("way", WAYS)
def test_what_joins_it_by_power_of_its_own_has_a_ground_lead_that_is_read(way: str) -> None:
    """A relay and a charger; a diode needs none. No control wire: both feel charging volts."""
    pack = made(with_second(second(way)))
    name = {"relay": "relay of the second battery", "dc_charger": "charger of the second battery"}
    joiner = name.get(way, "diode of the second battery")
    grounds = [link for link in circuit_of(pack).links if link.begins == f"{joiner} GND"]
    (line,) = [test for test in pack.tests if test.id == "ground-ohms"]
    assert (f"{joiner} GND" in line.probes) == (way != "diode") == bool(grounds)
    (bought,) = [part for part in pack.parts if joiner in part.note]
    assert ("no control wire" in bought.note) == (way != "diode")
    assert not [
        wire
        for wire in circuit_of(pack).wires
        if wire.carries == "control" and joiner in (wire.from_place, wire.to_place)
    ]
    if grounds:
        assert grounds[0].finishes == "ground point"
        cut = [row for row in pack.cut_list if row.name == f"ground of {joiner}"]
        assert [row.cut_m for row in cut] == [second().ground_m]

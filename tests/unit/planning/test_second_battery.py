"""A second battery: fused at each end, counted in the state that it feeds, on every sheet."""

from __future__ import annotations

import html
from dataclasses import replace

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import HOUSE, shipped_pack, shipped_parts
from spice_checks import check_deck
from test_circuit_faults import noticing, without

from builder.model.job import SecondBattery
from builder.planning.bay.foretold import sound_of
from builder.planning.bay.work import BayWork
from builder.planning.circuit.bench import Bench
from builder.planning.circuit.laws import unfused_wires
from builder.planning.course.simulate import broken
from builder.planning.job import make_pack as planner
from builder.planning.power.asleep_draws import on_second
from builder.planning.power.battery_kinds import battery_kind
from builder.planning.power.joiners import JOINERS
from builder.planning.sheet_rows import Stands
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.power_tree import power_tree
from builder.rendering.pages.cautions import cautions_of

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


def test_the_strap_is_judged_by_what_flows_through_it() -> None:
    """The link's amperes come home by the car's straps; the amplifier's only to the second battery.

    By hand: 0.50 V less the link's own drop, over what the link carries.
    """
    power = shipped_pack("rook-second-battery").power
    assert power is not None and power.link_run is not None and power.strap_max_mohm is not None
    link = power.link_run
    assert (link.current_a, link.drop_v) == (
        pytest.approx(22.8, abs=0.05),
        pytest.approx(0.421, abs=5e-4),
    )
    left_v = HOUSE.supply_path_drop_v - link.drop_v
    assert power.strap_max_mohm == pytest.approx(1000 * left_v / link.current_a)
    assert power.strap_max_mohm == pytest.approx(3.47, abs=0.005)


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


LINK, OWN, CAR = "fuse of the link at the battery", "second battery", "battery"


def moves_of(pack: WorkPack) -> list[tuple[str, str]]:
    """What is moved of batteries and their fuses, in order."""
    named = {LINK, OWN, CAR, "main fuse"}
    every = [moved for step in pack.steps for moved in step.moves]
    return [(x.what, x.value) for x in every if x.what in named and x.value != "waited"]


def test_the_cars_own_comes_off_from_the_front_and_the_second_is_not_guessed_at() -> None:
    """Where the trim over the second battery is home, nothing at it is handled."""
    pack = shipped_pack("rook-second-battery")
    assert moves_of(pack) == [
        (CAR, "off"), (OWN, "on"), (CAR, "on"), ("main fuse", "in"), (LINK, "in"),
        (LINK, "out"), (CAR, "off"), (CAR, "on"), (LINK, "in"),
    ]  # fmt: skip
    assert not any("where it is in" in said for said in (*pack.revert, *map(str, pack.steps)))


def test_on_the_way_back_the_trim_is_off_before_what_lies_under_it_is_handled() -> None:
    lines = shipped_pack("rook-second-battery").revert
    said = (
        "Fuse of the link at the battery out", "then the car's battery negative off",
        "Rear bench off", "Main fuse out", "The second battery's negative off, its end covered; "
        "then the fuse of the link at the second battery out", "X1.1: take",
    )  # fmt: skip
    at = [next(n for n, line in enumerate(lines) if each in line) for each in said]
    assert at == sorted(at) and len(set(at)) == len(at)


@pytest.mark.parametrize("trim", ["main fuse", OWN, LINK])
def test_a_fuse_or_a_negative_that_is_handled_under_trim_is_noticed(trim: str) -> None:
    """The walk through the steps knows where each is, by itself."""
    pack, parts = shipped_pack("rook-second-battery"), shipped_parts("rook-second-battery")
    power = parts.vehicle.power
    place = "behind the rear bench" if trim == LINK else power.battery.location
    battery = replace(power.battery, location=place)
    vehicle = replace(parts.vehicle, power=replace(power, battery=battery))
    moved = replace(parts, vehicle=vehicle) if trim == LINK else parts
    shut = tuple(
        replace(step, moves=tuple(x for x in step.moves if x.what != "rear bench"))
        for step in pack.steps
    )
    said = list(broken(shut, pack.tests, circuit_of(pack), moved))
    assert any("rear bench is still on" in one for one in said)
    if trim == LINK:
        assert any("link at the battery" in one and "rear bench" in one for one in said)


def test_a_battery_under_a_floor_is_reached_before_its_negative_comes_off() -> None:
    """And the floor goes home after it, once."""
    pack = shipped_pack("tarn-subwoofer")
    order = [
        (moved.what, moved.value)
        for step in pack.steps
        for moved in step.moves
        if moved.what in (CAR, "load floor") and moved.value != "waited"
    ]
    off, on = order.index(("load floor", "off")), order.index(("load floor", "on"))
    assert off < order.index((CAR, "off")) and order[on - 1] == (CAR, "on")
    assert order.count(("load floor", "off")) == order.count(("load floor", "on")) == 1


def test_a_main_fuse_behind_restraint_parts_stays_in_while_they_are_moved() -> None:
    """It cannot be drawn after they are home, and they go home with the battery off."""
    parts = shipped_parts("rook-two-amplifiers")
    supply = replace(parts.job.supply, main_fuse_place="right sill")
    pack = made(replace(parts, job=replace(parts.job, supply=supply)))
    assert pack.kind == "tap_plan" and not [x for x in pack.flags if x.kind == "course_broken"]
    order = [(moved.what, moved.value) for step in pack.steps for moved in step.moves]
    fuse = [at for at, (what, _) in enumerate(order) if what == "main fuse"]
    assert order[fuse[-1]] == ("main fuse", "in")
    assert fuse[-1] < order.index(("right sill plate", "on"))


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
    joiner = JOINERS[way]
    (ends,) = [step for step in pack.steps if step.text.endswith(f"terminal of {joiner}")]
    assert at["link-insulation"] < ends.number and f"not yet in the {joiner}" in line.what
    assert len(ends.makes) == 2
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
    (bought,) = [x for x in pack.parts if joiner in x.note and x.item != "set of fixings"]
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


def test_what_each_battery_gives_while_parked_is_read_at_its_own() -> None:
    """22 mA as read and the relay's 2.5 mA of the car's; converter and amplifier hang on the other.

    By hand: 40 % of the 40.0 Ah held, over 24.5 mA, are 27 days.
    """
    pack = shipped_pack("rook-second-battery")
    lines = {test.id: test for test in pack.tests}
    assert lines["parked-after"].high == pytest.approx(24.5)
    assert lines["parked-second"].high == pytest.approx(5.0)
    assert pack.power is not None and pack.power.parked_days is not None
    assert pack.power.parked_days == pytest.approx(0.4 * 40.0 / 0.0245 / 24, rel=2e-3)
    assert "parked-second" not in {test.id for test in made(with_second(None)).tests}


def test_a_converter_on_the_cars_own_supply_counts_at_the_car() -> None:
    parts = shipped_parts("rook-second-battery")
    assert on_second(parts) == {"sub amp", parts.converter.name}
    at_radio = replace(parts, job=replace(parts.job, converter_supply="radio"))
    assert on_second(at_radio) == {"sub amp"}


def test_the_volts_that_the_hours_are_counted_from_are_read_before_it_is_joined() -> None:
    pack = shipped_pack("rook-second-battery")
    at = {id: step.number for step in pack.steps for id in step.tests}
    (on,) = [step for step in pack.steps if Stands("second battery", "on") in step.moves]
    (line,) = [test for test in pack.tests if test.id == "second-battery-rest"]
    assert at[line.id] < on.number and line.low == battery_kind("agm", HOUSE).accepted_v
    assert pack.power is not None and f"{line.low:g} V at rest" in pack.power.lasts_from


def test_the_link_is_read_with_its_amperes_and_holds_what_its_fuse_was_chosen_for() -> None:
    """By hand: the way out loses 0.39 V of the 0.42 V at 22.8 A, 17.1 mΩ."""
    pack = shipped_pack("rook-second-battery")
    lines, power = {test.id: test for test in pack.tests}, pack.power
    assert power is not None and power.link_run is not None
    link, run = lines["second-battery-link"], power.link_run
    out_v = run.cumulative_drop_v - run.return_drop_v
    assert link.expected_mohm == pytest.approx(1000 * out_v / run.current_a)
    assert link.expected_mohm == pytest.approx(17.1, abs=0.05)
    assert link.high_mohm == pytest.approx(1000 * (0.5 - run.return_drop_v) / run.current_a)
    charging = lines["second-battery-charging"]
    assert (charging.quantity, charging.high) == ("a", pytest.approx(16.0))
    assert run.fuse_a is not None and charging.high + power.music_current_a <= run.fuse_a


def test_the_cars_straps_are_no_matter_of_what_a_second_battery_feeds() -> None:
    lines = {test.id: test for test in shipped_pack("rook-second-battery").tests}
    assert "straps" not in lines["sub-amp-supply-drop"].why
    assert (
        "straps"
        in {t.id: t for t in shipped_pack("rook-two-amplifiers").tests}["sub-amp-supply-drop"].why
        or shipped_parts("rook-two-amplifiers").job.supply.strap is not None
    )


def test_a_battery_where_people_sit_is_covered_held_and_vented() -> None:
    parts, pack = shipped_parts("rook-second-battery"), shipped_pack("rook-second-battery")
    (step,) = [step for step in pack.steps if Stands("second battery", "on") in step.moves]
    assert "cover over each of its posts" in step.lines[-1] and "vent" in step.lines[-1]
    said = [x for x in cautions_of(parts.vehicle, parts.job) if "second battery" in x.title]
    assert len(said) == 1 and "no bare tool" in said[0].text and "gas" in said[0].text
    lithium = with_second(second(type="lithium"))
    (dry,) = [x for x in cautions_of(lithium.vehicle, lithium.job) if "second battery" in x.title]
    assert "gas" not in dry.text
    alone = with_second(None)
    assert not [x for x in cautions_of(alone.vehicle, alone.job) if "second battery" in x.title]


def test_the_power_tree_draws_the_cars_battery_and_the_link_to_what_feeds() -> None:
    drawn = str(power_tree(shipped_pack("rook-second-battery")))
    for said in ("car's battery", "second battery", "link between the batteries", "0.188 V from"):
        assert said in html.unescape(drawn), said
    assert html.unescape(drawn).count("from the second battery") >= 1
    assert "through relay of the second battery" in drawn
    alone = html.unescape(str(power_tree(shipped_pack("rook-two-amplifiers"))))
    assert "second battery" not in alone and "from the battery" in alone

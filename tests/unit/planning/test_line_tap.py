"""The line feed of a factory amplifier as a source: joined beside it, and never by a digital link.

The car is a shipped one: a radio with balanced line feeds of 2.9 V at 3.42 V of bias, and a factory
amplifier that was read as 21.8 kΩ across its input.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from circuit_checks import check_circuit, circuit_of
from pack_jobs import HOUSE, VEHICLES, chain, job, parts_of, route, said, subwoofer, supply
from plan_cars import converter
from spice_checks import check_deck

from builder.declaring import read
from builder.model.names import channel_name
from builder.model.parts import Converter, Interface
from builder.model.vehicle import Vehicle
from builder.planning.car.sources import Sources
from builder.planning.circuit import laws
from builder.planning.feeds.digital_feed import digital_objections
from builder.planning.feeds.tap_plan import make_plan
from builder.planning.job.make_pack import make_pack
from builder.planning.work_pack import JobParts, WorkPack

LORNE = VEHICLES["veldane-lorne-2012-rhd"]
FIXED = VEHICLES["quillan-lovage-2021-mid"]
DIGITAL = VEHICLES["quillan-lovage-2021-top"]
FRONTS = ("front-left", "front-right")


def parts_for(car: Vehicle, device: Converter | str = "cvn-2a", **more: Any) -> JobParts:
    """A subwoofer that plays the line feeds of the fronts."""
    answers = [
        {"question": each.question, "answer": next(a.answer for a in each.answers
                                                   if a.means == "this")}
        for each in car.how_to_tell
    ]  # fmt: skip
    routes = [route("radio", "converter", kind, 4.0) for kind in ("signal", "control")]
    what = job(
        [subwoofer(*FRONTS)], routes, supply(4.0, 0.4), vehicle=car.id,
        treatment=dict.fromkeys(FRONTS, "line_tap"), car={"tag": "k7m2", "answers": answers},
        amplifiers=[{"name": "sub amp", "part": "amn-600", "place": "luggage area"}], **more,
    )  # fmt: skip
    return parts_of(car, what, device, {"sub amp": "amn-600"})


def pack_for(car: Vehicle, device: Converter | str = "cvn-2a") -> WorkPack:
    return make_pack(parts_for(car, device), defaults=HOUSE)


def refusals(pack: WorkPack) -> str:
    return " ".join(f"{reason.decision}: {reason.because}" for reason in pack.refusals)


def test_a_subwoofer_listens_beside_the_line_feed() -> None:
    parts, pack = parts_for(LORNE), pack_for(LORNE)
    assert pack.kind == "tap_plan"
    assert {(f.plug, f.cavity, f.treatment) for f in pack.plan.feeds} == {
        ("R", cavity, "line_tap") for cavity in ("1", "11", "2", "12")
    }
    link = chain(pack, "subwoofer")
    assert (link.source_v_rms, link.source_basis) == (2.9, "measured")
    assert link.converter_margin_db == pytest.approx(16.77, abs=5e-3)  # 20 V over 2.9 V
    assert link.converter_gain == pytest.approx(4.5 / 2.9)
    assert all(check.square_wave_v is None for check in pack.plan.levels)  # no speaker bridge
    check_circuit(parts, pack)
    check_deck(parts, pack)


def test_stand_ins_and_ohms_are_for_speaker_pairs_only() -> None:
    pack = pack_for(LORNE)
    circuit = circuit_of(pack)
    assert not any("stand-in" in part.id for part in circuit.elements)
    assert not any("signal-ohms" in test.id for test in pack.tests)
    inputs = [unit for unit in circuit.units if unit.kind == "factory_input"]
    assert [unit.id for unit in inputs] == [f"factory amplifier {channel_name(x)}" for x in FRONTS]
    assert inputs[0].terminals[0].in_ohm == 21900  # the first reading across the pair
    assert "10000 Ω beside the factory amplifier's input (21800 Ω, as read) is 6855 Ω" in said(pack)
    (level,) = [test for test in pack.tests if test.id == "front-left-pair-level"]
    assert "at the radio end, 1 kHz" in level.what
    assert any("What the factory amplifier adds by itself" in loss for loss in pack.losses)


def test_a_feed_that_nobody_measured_is_measured_first() -> None:
    bare = tuple(replace(each, line_level=None) for each in LORNE.channels)
    pack = pack_for(replace(LORNE, channels=bare))
    assert pack.kind != "tap_plan"
    assert "measure the level of front left first" in refusals(pack)


@pytest.mark.parametrize(("limit", "kind"), [(3.5, "tap_plan"), (3.4, "no_plan")])
def test_common_mode_above_the_limit_stops(limit: float, kind: str) -> None:
    """Both legs rest at up to 3.45 V above ground."""
    device = converter("cvn-2a")
    pack = pack_for(LORNE, replace(device, input=replace(device.input, common_mode_max_v=limit)))
    assert pack.kind == kind
    assert ("the input does not stand the bias" in refusals(pack)) == (kind == "no_plan")


def test_an_input_whose_negative_is_ground_is_never_joined() -> None:
    device = converter("cvn-2a")
    grounded = replace(device, input=replace(device.input, type="ground_referenced"))
    assert "never join these" in refusals(pack_for(LORNE, grounded))


def test_transformers_part_the_grounds() -> None:
    pack = pack_for(LORNE, "cvn-2p")
    assert "no ground loop closes through the shields" in said(pack)
    assert list(laws.shield_loops(circuit_of(pack))) == []
    assert "its transformers part the grounds" not in said(pack_for(LORNE))


def test_a_fixed_feed_does_not_follow_the_volume() -> None:
    assert "the radio sends one fixed level" in refusals(pack_for(FIXED))


# -- a digital feed ---------------------------------------------------------------------------


def reader(sound_outputs: int, plug: str) -> Interface:
    return read(Interface, {
        "id": "reader", "data": "invented", "name": "OK-7N", "maker": "Okelund",
        "outputs": [{"function": "accessory", "max_ma": 500}], "sound_outputs": sound_outputs,
        "needs": {"bus": "two_wire", "plugs": [plug]},
        "supply": {"min_v": 9.0, "idle_ma": 3, "fuse_a": 2},
    })  # fmt: skip


def bus_housing(car: Vehicle) -> str:
    """The housing of a plug that carries both wires of the bus."""
    for plug in car.plugs:
        if {"data_high", "data_low"} <= {pin.function for pin in plug.pins}:
            return plug.housing
    raise AssertionError("no plug of the car carries its bus")


@pytest.mark.parametrize(
    ("outputs", "fits", "said"),
    [
        (4, True, "as line level: OK-7N (4 line outputs)."),
        (4, False, "none that does fits this car"),
        (0, True, "none does"),
    ],
)
def test_a_digital_feed_is_not_joined_by_wire_and_the_ways_are_named(
    outputs: int, fits: bool, said: str
) -> None:
    parts = parts_for(DIGITAL)
    housing = bus_housing(DIGITAL) if fits else "of-no-car"
    shelf = replace(parts.shelf, interfaces={"reader": reader(outputs, housing)})
    text = refusals(make_pack(replace(parts, shelf=shelf), defaults=HOUSE))
    assert "not by wire: these are the ways" in text and said in text
    assert "At the outputs of the factory amplifier" in text
    assert "once the record describes" not in text
    assert "cannot be used: the radio sends sound over a digital link" in text


def test_where_no_pair_behind_a_digital_feed_is_described_the_record_is_asked_for() -> None:
    nowhere = digital_objections(DIGITAL, Sources({}, {}, {}, (), ()), (), ())
    assert "once the record describes its speaker pairs" in nowhere[0].reason.because


def test_only_who_asks_for_the_feed_is_told_so() -> None:
    """The plan of the car itself joins its speaker pairs, behind the factory amplifier."""
    plan = make_plan(DIGITAL, converter("cvn-2a"), defaults=HOUSE)
    assert not any("not by wire" in reason.decision for reason in plan.refusals)

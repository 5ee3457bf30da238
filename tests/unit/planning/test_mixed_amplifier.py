"""An amplifier of two classes: what it draws, and the whole loop of its supply, by hand.

The five channels are the worked example of the design: 4 × 60 W into 4 Ω of class AB and 300 W
into 2 Ω of class D. Its figures stand there to the printed digit.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from pack_jobs import flag_kinds, shipped_pack, shipped_parts, unadvised_pack, with_supply

from builder.declaring import read
from builder.model.house_defaults import HouseDefaults
from builder.model.job.supply import Strap
from builder.model.parts import Amplifier
from builder.planning.levels.amplifier_loads import ChannelLoad, amplifier_current_a
from builder.planning.levels.bridged_channels import group_at
from builder.planning.power.conductors import awg
from builder.planning.power.loop import loop_flags, supply_loop
from builder.planning.power.supply import SupplyLoad, efficiency_of, trunk_demand
from builder.planning.power.supply_runs import judge_run

HOUSE = HouseDefaults()
AMPLIFIER = "five"


def five_channels(**of_the_sub: Any) -> Amplifier:
    """The amplifier of class AB, its fifth channel of class D and what else is said of it."""
    doors = {
        "count": 4, "use": "full_range", "power": [{"ohm": 4, "w_rms": 60}], "min_ohm": 2,
        "bridgeable": "no", "sensitivity": {"min_v_rms": 0.25, "max_v_rms": 4.0},
    }  # fmt: skip
    sub = {**doors, "count": 1, "use": "sub", "power": [{"ohm": 2, "w_rms": 300}], **of_the_sub}
    return read(Amplifier, {
        "schema": 1, "id": "five", "data": "invented", "name": "Five", "maker": "Example Audio",
        "class": "AB", "channels": [doors, sub],
        "supply": {"min_v": 9.0, "idle_a": 1.2, "fuse_a": 60},
        "turn_on": {"draw_ma": 15}, "input_type": "differential", "speaker_level_in": "no",
        "output_floating": "yes",
    })  # fmt: skip


def loads_of(amplifier: Amplifier) -> dict[tuple[str, int], ChannelLoad]:
    """Every channel at full power."""
    found = {}
    for number in range(1, 6):
        group = group_at(amplifier, number)
        assert group is not None
        ((ohm, power_w),) = group.power_w.items()
        load = ChannelLoad(AMPLIFIER, number, group, (), ohm, power_w, power_w)
        found[AMPLIFIER, number] = load
    return found


def drawn_a(amplifier: Amplifier) -> float:
    return amplifier_current_a(AMPLIFIER, amplifier, loads_of(amplifier), HOUSE)


def test_each_group_draws_by_its_own_class() -> None:
    # (240/0.55 + 300/0.80)/13.8
    assert drawn_a(five_channels(**{"class": "D"})) == pytest.approx(58.8, abs=0.05)
    # one class for all: 540/0.55/13.8
    assert drawn_a(five_channels()) == pytest.approx(71.15, abs=0.005)


@pytest.mark.parametrize(
    ("said", "share"),
    [
        ({}, 0.55),
        ({"class": "D"}, 0.8),
        ({"efficiency": 0.83}, 0.83),
        ({"class": "D", "efficiency": 0.83}, 0.83),
    ],
)
def test_what_is_known_of_a_group_goes_first(said: dict[str, Any], share: float) -> None:
    amplifier = five_channels(**said)
    assert efficiency_of(amplifier, amplifier.channels[1], HOUSE) == share


def test_a_figure_of_the_whole_amplifier_is_not_one_of_its_other_class() -> None:
    amplifier = replace(five_channels(**{"class": "D"}), efficiency=0.6)
    doors, sub = amplifier.channels
    assert efficiency_of(amplifier, doors, HOUSE) == 0.6
    assert efficiency_of(amplifier, sub, HOUSE) == HOUSE.class_d_efficiency


def test_the_loop_of_the_five_channels() -> None:
    current = drawn_a(five_channels(**{"class": "D"}))
    demand = trunk_demand((SupplyLoad(AMPLIFIER, current, 60),), 4.6, 0.4)
    choice = judge_run(demand, awg("4"), HOUSE)
    assert choice.run.fuse_a == 60 and choice.run.length_m == 5.0
    # 5.0 m of 4 AWG at 40 °C: 4.396 mΩ; joints 1.5 mΩ: 0.258 + 0.088
    assert choice.run.drop_v / current == pytest.approx(5.896e-3, abs=5e-7)
    assert choice.run.drop_v == pytest.approx(0.347, abs=5e-4)
    good = supply_loop(choice.run.drop_v, current, 0.0009, HOUSE)
    assert good.drop_v == pytest.approx(0.400, abs=5e-4)
    assert loop_flags(good, HOUSE) == []
    poor = supply_loop(choice.run.drop_v, current, 0.003, HOUSE)
    assert poor.drop_v == pytest.approx(0.523, abs=5e-4)
    assert [flag.kind for flag in loop_flags(poor, HOUSE)] == ["loop_drop_high"]


def test_the_shipped_job_of_five_channels_prints_the_worked_figures() -> None:
    """The converter's 0.05 A on the way changes no printed digit of them."""
    power = shipped_pack("sorrel-five-channels").power
    assert power is not None
    (run,) = power.runs
    assert f"{power.full_current_a:.1f}" == "58.8"
    assert (power.main_fuse_a, run.fuse_a, run.conductor) == (60, 60, "4 AWG copper")
    assert run.length_m == 5.0 and f"{run.drop_v:.3f}" == "0.347"
    assert power.strap_mohm == pytest.approx(0.9)
    assert power.loop_drop_v is not None and f"{power.loop_drop_v:.3f}" == "0.400"
    poor = with_supply(shipped_parts("sorrel-five-channels"), strap=Strap(drop_mv=30, at_a=10))
    flagged = unadvised_pack(poor)
    assert flagged.power is not None and flagged.power.loop_drop_v is not None
    assert f"{flagged.power.loop_drop_v:.3f}" == "0.523"
    assert "loop_drop_high" in flag_kinds(flagged)

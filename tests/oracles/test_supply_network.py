"""The supply of two amplifiers as a circuit: trunk, joints, branches, ground return."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.model.house_defaults import HouseDefaults
from builder.planning.power.conductors import Conductor, awg, choice_awg, hot_ohm_per_km, square_mm
from builder.planning.power.supply import SupplyLoad, branch_demand, size_runs, trunk_demand
from builder.planning.power.supply_runs import judge_run
from builder.planning.power.voltage_drop import SupplyPath, path_drop_v

HOUSE = HouseDefaults()
BATTERY_V = 13.8
CLOSE = 0.005
Measure = Callable[[str], dict[str, float]]


def wire(name: str, start: str, end: str, metres: float, conductor: Conductor) -> str:
    ohm = max(metres * hot_ohm_per_km(conductor, HOUSE) / 1000, 1e-9)
    return f"R{name} {start} {end} {ohm:.12g}"


def one_path(path: SupplyPath, amps: float) -> str:
    back = path.return_conductor or path.conductor
    joints = HOUSE.joint_ohm if path.joints else 1e-9
    return "\n".join(
        (
            f"V1 battery 0 {BATTERY_V}",
            f"Rjoints battery lead {joints:.12g}",
            wire("out", "lead", "plus", path.out_m, path.conductor),
            wire("back", "minus", "0", path.return_m, back),
            f"I1 plus minus {amps:.12g}",
            ".control\nop\nlet drop = v(battery)-(v(plus)-v(minus))\nprint drop\n.endc",
        )
    )


@pytest.mark.parametrize(
    ("path", "amps"),
    [
        (SupplyPath(5.2, 0.5, awg("4")), 54.35),
        (SupplyPath(5.2, 0.5, awg("6")), 54.35),
        (SupplyPath(4.2, 0.4, awg("8")), 31.6),
        (SupplyPath(4.2, 0.5, awg("4"), awg("8")), 40),
        (SupplyPath(4.2, 0.4, awg("1/0", "copper_clad_aluminium")), 140.3),
        (SupplyPath(3.0, 3.0, square_mm(16)), 60),
        (SupplyPath(0.5, 0.3, awg("18"), joints=False), 0.6),
    ],
)
def test_one_path(simulate: Measure, path: SupplyPath, amps: float) -> None:
    found = simulate(one_path(path, amps))
    assert path_drop_v(path, amps, HOUSE) == pytest.approx(found["drop"], rel=CLOSE)


LOADS = (
    SupplyLoad("AMN-1200", 108.7, 120, 0.4, 0.4),
    SupplyLoad("AMN-4", 31.6, 40, 0.5, 0.3),
    SupplyLoad("AMN-600", 20.0, 30, 0.9, 0.2),
)


def network(trunk: Conductor, branches: list[Conductor], out_m: float, back_m: float) -> str:
    lines = [
        f"V1 battery 0 {BATTERY_V}",
        f"Rjoints battery lead {HOUSE.joint_ohm:.12g}",
        wire("trunk", "lead", "block", out_m, trunk),
        wire("earth", "star", "0", back_m, trunk),
    ]
    prints = ["op"]
    for number, (load, conductor) in enumerate(zip(LOADS, branches, strict=True)):
        lines += [
            wire(f"out{number}", "block", f"p{number}", load.branch_out_m, conductor),
            wire(f"back{number}", f"m{number}", "star", load.branch_return_m, conductor),
            f"I{number} p{number} m{number} {load.full_current_a:.12g}",
        ]
        prints += [f"let d{number} = v(battery)-(v(p{number})-v(m{number}))", f"print d{number}"]
    return "\n".join([*lines, ".control", *prints, ".endc"])


@pytest.mark.parametrize(("out_m", "back_m"), [(4.2, 0.0), (3.0, 0.5)])
def test_trunk_and_branches(simulate: Measure, out_m: float, back_m: float) -> None:
    trunk, *branches = size_runs(LOADS, out_m, back_m, choice_awg(), HOUSE)
    found = simulate(network(trunk.conductor, [b.conductor for b in branches], out_m, back_m))
    for number, branch in enumerate(branches):
        assert branch.run.cumulative_drop_v == pytest.approx(found[f"d{number}"], rel=CLOSE)


def test_thin_branches_that_a_job_chose_itself(simulate: Measure) -> None:
    sizes = [awg("2"), awg("8"), awg("10"), awg("12")]
    trunk = judge_run(trunk_demand(LOADS, 2.5, 0.5), sizes[0], HOUSE)
    branches = [
        judge_run(branch_demand(load), size, HOUSE, before_v=trunk.run.drop_v)
        for load, size in zip(LOADS, sizes[1:], strict=True)
    ]
    found = simulate(network(sizes[0], sizes[1:], 2.5, 0.5))
    for number, branch in enumerate(branches):
        assert branch.run.cumulative_drop_v == pytest.approx(found[f"d{number}"], rel=CLOSE)
    assert trunk.run.drop_v < branches[0].run.cumulative_drop_v

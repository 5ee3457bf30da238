"""The budget of a turn-on at its very limits, and coils of which nobody knows enough."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, shipped_parts

from builder.model.job import TurnOnLoad
from builder.model.parts import RemoteOut
from builder.planning.job.refused_pack import stopping_objections
from builder.planning.pack_details import PackFlag
from builder.planning.plan import TurnOn
from builder.planning.turn_on.budget import SETTLING_MIN_S, TurnOnBudget, budget_turn_on

DRAWN_MA = 12.0 + 100.0
"""The amplifier of the job, and a relay."""


def budget(max_ma: float, delay_s: float | None = 2.0, diode: str = "yes") -> TurnOnBudget:
    """What a job's converter has to switch: its amplifier, and the coil of a relay."""
    parts = shipped_parts("tansy-subwoofer")
    relay = TurnOnLoad(name="fan relay", draw_ma=100.0, coil=True, diode=diode)  # type: ignore[arg-type]
    job = replace(parts.job, other_turn_on_loads=(relay,))
    device = replace(parts.converter, remote_out=RemoteOut(max_ma=max_ma, delay_s=delay_s))
    source = TurnOn(2, "retained", "A", "7", None, None, 8.0, 150.0, "")
    return budget_turn_on(replace(parts, job=job, converter=device), source, HOUSE)


def flags(found: TurnOnBudget) -> dict[str, bool]:
    """The kinds of flags raised, and whether each stops the plan."""
    return {flag.kind: flag.stops for flag in found.flags}


def test_the_draw_is_that_of_everything_switched() -> None:
    assert budget(500).draws[-1].draw_ma == DRAWN_MA


@pytest.mark.parametrize("planned_ma", [1.0, None])
def test_the_source_gives_what_was_planned_or_what_hangs_on_it(planned_ma: float | None) -> None:
    """Behind a driver the car's output gives 1 mA, whatever the converter's input draws."""
    parts = shipped_parts("tansy-subwoofer")
    own = parts.converter.remote_in
    assert own is not None and own.draw_ma != 1.0 and parts.converter.remote_out is not None
    source = TurnOn(2, "retained", "A", "7", None, None, planned_ma, 150.0, "")
    found = budget_turn_on(parts, source, HOUSE)
    wanted_ma = own.draw_ma if planned_ma is None else planned_ma
    assert found.draws[0].draw_ma == wanted_ma
    assert found.draws[0].share == pytest.approx(wanted_ma / 150.0)


@pytest.mark.parametrize(
    ("max_ma", "weak", "refused"),
    [
        (DRAWN_MA / HOUSE.source_share, None, False),
        (DRAWN_MA / HOUSE.source_share - 0.1, False, False),
        (DRAWN_MA, False, False),
        (DRAWN_MA - 0.1, True, True),
    ],
    ids=["exactly the share", "a little over it", "exactly all", "more than all"],
)
def test_an_output_is_weak_over_its_share_and_refused_over_all_it_gives(max_ma, weak, refused):
    found = budget(max_ma)
    assert flags(found).get("turn_on_weak") is weak
    assert bool(found.objections) is refused


@pytest.mark.parametrize("diode", ["no", "unknown"])
def test_a_coil_needs_a_diode_unless_somebody_saw_one(diode: str) -> None:
    assert "coil_without_diode" in flags(budget(500, diode=diode))
    assert "coil_without_diode" not in flags(budget(500, diode="yes"))


@pytest.mark.parametrize(("delay_s", "thumps"), [(SETTLING_MIN_S, False), (0.9, True)])
def test_the_amplifier_may_come_on_from_the_settling_time_on(delay_s: float, thumps: bool) -> None:
    said = [reason.because for reason in budget(500, delay_s).reasons]
    assert any("it may thump" in because for because in said) is thumps


def test_an_overloaded_output_is_refused_once_by_its_budget_and_other_stops_by_their_flag() -> None:
    """The budget has its own objection beside the flag: a second would say the same twice."""
    over = budget(DRAWN_MA - 0.1)
    assert len(over.objections) == 1 and stopping_objections(over.flags) == []
    stop = PackFlag("fuse_far", "main fuse", "too far from the battery", stops=True)
    (objection,) = stopping_objections((stop, replace(stop, stops=False)))
    assert (objection.reason.decision, objection.reason.because) == (
        "main fuse: fuse far", "too far from the battery",
    )  # fmt: skip

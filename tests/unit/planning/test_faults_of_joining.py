"""Wires at another cavity of their plug, and wires on each other: each is found before power."""

from __future__ import annotations

from itertools import combinations

import pytest
from comeback_jobs import TAP_PLANS, causes_in
from pack_jobs import shipped_pack
from test_faults_caught import caught_by, caught_in, without

from builder.planning.bay.line import DEAD
from builder.planning.comeback.condition import Condition
from builder.planning.comeback.words import FaultKind
from builder.planning.views.wiring_rows import made_by_us

KINDS: tuple[FaultKind, ...] = ("wrong_cavity", "touching")
FOUND_BY_THE_FIRST_POWER = ("cutter-fronts",)
"""Its pairs are no bridged ones, so no line reads its signal legs against speaker wires."""


@pytest.mark.parametrize("name", TAP_PLANS)
def test_each_is_found_while_everything_is_dead(name: str) -> None:
    mine = [each for each in caught_in(name) if each.fault.kind in KINDS]
    assert len(mine) > 30
    for each in mine:
        assert each.in_time and each.line, each.fault.id
        if name not in FOUND_BY_THE_FIRST_POWER:
            assert each.line.state in DEAD or each.line.state == "step", each.fault.id


@pytest.mark.parametrize("name", ["dash-converter", "leto-four-doors", "teasel-four-doors"])
def test_every_cavity_of_the_plug_is_tried_for_every_wire_tapped_there(name: str) -> None:
    """Counted from the car's record, not from how the faults are made."""
    job, circuit = causes_in(name).job, causes_in(name).job.circuit
    tried = [x for x in causes_in(name).while_joining if x.kind == "wrong_cavity"]
    for joint in circuit.joints:
        cavity = next((end for end in joint.joins if "." in end and " " not in end), "")
        links = [link for link in circuit.links if joint.id in link.path]
        switched = any(link.carries == "control" for link in links)
        if joint.kind == "tap" and made_by_us(job.index, joint) and not switched:
            plug, _, _ = cavity.rpartition(".")
            car = job.parts.vehicle.plug(plug)
            assert car is not None
            used = {f"{plug}.{pin.cavity}" for pin in car.pins} - {cavity}
            mine = [x.what for x in tried if x.at == joint.id and ", both legs" not in x.what]
            said = {what.partition(" is joined to ")[2].partition(", not")[0] for what in mine}
            assert said == used and len(mine) == len(used), joint.id


def test_every_two_legs_and_every_leg_and_supply_lead_lie_on_each_other_once() -> None:
    """Leto: 8 signal legs, 8 speaker legs, and 3 supply leads: before, behind the main fuse, and
    behind the converter's."""
    touching = [x for x in causes_in("leto-four-doors").while_joining if x.kind == "touching"]
    assert len(touching) == len(list(combinations(range(16), 2))) + 16 * 3
    assert len({x.id for x in touching}) == len(touching)


def test_outputs_whose_wires_touch_protect_themselves() -> None:
    causes = causes_in("leto-four-doors")
    fault = next(
        x for x in causes.while_joining
        if x.id == "touching cable 1 pair 1 positive and cable 3 pair 2 negative"
    )  # fmt: skip
    day = Condition(causes.job.healthy, fault).day
    whole = causes.job.whole.day
    assert whole.played_at("A.1") and not day.played_at("A.1")
    assert day.played_at("A.3")
    assert whole.works("door amp") and not day.works("door amp")


@pytest.mark.parametrize(
    ("name", "line", "kind"),
    [
        ("leto-four-doors", "signal-legs", "wrong_cavity"),
        ("dash-converter", "tapped-ways", "wrong_cavity"),
        ("teasel-four-doors", "ok-7n-plug-ground-ohms", "wrong_cavity"),
        ("leto-four-doors", "pairs-apart", "touching"),
        ("tansy-subwoofer", "supply-insulation", "touching"),
        ("tansy-subwoofer", "signal-insulation", "touching"),
    ],
)
def test_a_sheet_that_lacks_the_line_finds_less_before_power(
    name: str, line: str, kind: FaultKind
) -> None:
    assert line in {test.id for test in shipped_pack(name).tests}

    def dead(found: object) -> set[str]:
        return {
            x.fault.id for x in found  # type: ignore[attr-defined]
            if x.fault.kind == kind and x.line and x.line.state in DEAD
        }  # fmt: skip

    assert dead(caught_by(name, without(shipped_pack(name), line))) < dead(caught_in(name))

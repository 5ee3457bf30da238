"""A pair is joined where its wires are proved: at another place the colour is a guess."""

from __future__ import annotations

from typing import Any

import pytest
from pack_jobs import job, pack_of, route, subwoofer, supply
from plan_cars import doors_car, retained

from builder.planning.work_pack import WorkPack

PROVED = {"proved_there": {"by": "alder-pit-audio", "date": "2024-06-01"}}


def plain(start: str, **more: Any) -> WorkPack:
    """A subwoofer that listens to the rears, joined at a place."""
    routes = [
        route(start, "converter", "signal", 1.8) | more,
        route("radio", "converter", "control", 6.0),
    ]
    what = job([subwoofer("rear-left", "rear-right")], routes, supply(5.2, 0.5))
    car = doors_car([retained(9)])
    return pack_of(car, what, "cvn-2a", {"sub amp": "amn-600"}, ("2c", "3c"))


@pytest.mark.parametrize("place", ["radio", "Radio", "plug A", "behind"])
def test_at_the_plug_its_proof_counts(place: str) -> None:
    assert plain(place).kind == "tap_plan"


def test_elsewhere_it_is_a_probe_first() -> None:
    pack = plain("luggage trim")
    assert pack.kind == "probe_plan" and pack.circuit is None
    decisions = [reason.decision for reason in pack.refusals]
    assert "prove the rear left wires at luggage trim first" in decisions
    read = [test for test in pack.tests if "at luggage trim" in test.what]
    assert len(read) == 4  # both legs of both pairs
    assert {(test.quantity, test.high) for test in read} == {("ohm", 1.0)}
    assert "A.5" in read[0].what and "under 1 Ω" in read[0].what


def test_proved_there_it_is_a_plan_again() -> None:
    pack = plain("luggage trim", **PROVED)
    assert pack.kind == "tap_plan"
    assert pack.circuit is not None
    taps = [joint for joint in pack.circuit.joints if joint.kind == "tap"]
    assert {joint.place for joint in taps} >= {"luggage trim"}
    rows = [row for row in pack.wiring if row.link.endswith(("signal +", "signal −"))]
    assert {row.from_place for row in rows} == {"luggage trim"}

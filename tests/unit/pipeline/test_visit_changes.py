"""What a visit changes: every job that relies on a wire that fell is named."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.model.vehicle import Vehicle
from builder.pipeline.answers.visit_changes import Standing, changed, standing_of
from builder.pipeline.checking.book_check import CheckedBook

TEASEL, JOB = "cindral-teasel-2023", "teasel-four-doors"


@pytest.fixture(scope="module")
def before(shipped: CheckedBook) -> Standing:
    return standing_of(shipped, TEASEL)


def path_of(vehicle: Vehicle, place: str) -> tuple[str | int, ...]:
    (found,) = [pin.path for plug in vehicle.plugs for pin in plug.pins
                if f"{plug.id}.{pin.cavity}" == place]  # fmt: skip
    return found


def fallen(before: Standing, place: str) -> Standing:
    """The same car, one wire of it relied on less."""
    path = path_of(before.vehicle, place)
    proof = before.proofs[path]
    lower = proof._replace(score=proof.score / 2)
    return replace(before, proofs={**before.proofs, path: lower})


def recalled(before: Standing, place: str) -> dict[str, tuple[str, ...]]:
    found = changed(before, fallen(before, place), "a visit").recalled
    return {each.name: each.places for each in found}


@pytest.mark.parametrize("place", ["B.1", "B.11", "A.13", "A.14"])
def test_a_job_names_each_wire_that_its_data_interface_relies_on(
    before: Standing, place: str
) -> None:
    """Both data wires, and where its supply and its ground are joined beside its own plug."""
    assert recalled(before, place)[JOB] == (place,)


def place_of(vehicle: Vehicle, path: tuple[str | int, ...]) -> str:
    return next(f"{plug.id}.{pin.cavity}" for plug in vehicle.plugs for pin in plug.pins
                if pin.path == path)  # fmt: skip


def test_a_wire_that_nothing_relies_on_recalls_nothing(before: Standing) -> None:
    plans = (*before.plans.values(), *(made.planned.plan for made in before.packs.values()))
    used = {path for plan in plans for path in plan.used_paths}
    idle = next(place_of(before.vehicle, pin.path) for plug in before.vehicle.plugs
                for pin in plug.pins if pin.path not in used)  # fmt: skip
    assert recalled(before, idle) == {}

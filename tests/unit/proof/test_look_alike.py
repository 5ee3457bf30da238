"""Cavities that a probe slips to, and plugs that are taken for each other."""

from __future__ import annotations

from dataclasses import replace

import pytest
from proof_cars import housing, pin, vehicle

from builder.model.housing import Housing
from builder.model.plugs import Plug
from builder.proof.faces.look_alike import cavities_beside, look_alike

SHELL = housing(("1", "2", "3", "4"), ("5", "6", "7", "8"))


@pytest.mark.parametrize(
    ("cavity", "beside"), [("1", "25"), ("2", "136"), ("6", "257"), ("8", "47"), ("9", "")]
)
def test_a_probe_slips_along_the_row_or_straight_across_and_never_askew(
    cavity: str, beside: str
) -> None:
    assert cavities_beside(SHELL, cavity) == frozenset(beside)


def plug() -> Plug:
    return vehicle(pin("1", "constant")).plugs[0]


def other(shell: Housing, name: str) -> dict[str, Housing]:
    return {"block-a-8": SHELL, name: shell}


def test_plugs_of_as_many_cavities_are_alike_at_one_unit() -> None:
    shells = other(housing(("1", "2", "3", "4"), ("5", "6", "7", "8")), "block-b-8")
    first = plug()
    second = replace(first, id="B", housing="block-b-8")
    assert look_alike(first, second, shells)
    assert not look_alike(first, replace(second, unit="amplifier"), shells)
    assert not look_alike(first, second, other(housing(("1", "2")), "block-b-8"))
    assert not look_alike(first, second, {})
    assert look_alike(first, replace(second, housing="block-a-8"), {})


def test_plugs_of_no_known_unit_are_alike_only_at_one_place() -> None:
    shells = other(SHELL, "block-b-8")
    first = replace(plug(), unit="other", location="left kick panel")
    second = replace(first, id="B", housing="block-b-8")
    assert look_alike(first, second, shells)
    assert not look_alike(first, replace(second, location="luggage bay"), shells)

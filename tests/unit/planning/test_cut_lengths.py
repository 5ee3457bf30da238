"""Cut lengths and small parts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pack_jobs import shipped_pack

from builder.model.house_defaults import HouseDefaults
from builder.planning.cables.cut_lengths import (
    Cut,
    cut_length_m,
    joint_count,
    line_lead_m,
    pick_list,
    reel_short_m,
    round_up_m,
    with_spare,
)
from builder.planning.circuit.index import CircuitIndex
from builder.planning.views.cut_rows import cut_rows, cuts_of

HOUSE = HouseDefaults()


@pytest.mark.parametrize(
    ("route", "cut"), [(7.0, 8.3), (1.8, 2.6), (6.0, 7.2), (3.6, 4.6), (1.0, 1.7), (10.0, 11.6)]
)
def test_cut_lengths(route: float, cut: float) -> None:
    assert cut_length_m(route, HOUSE) == cut


@given(st.integers(1, 400))
def test_a_length_in_whole_steps_stays(steps: int) -> None:
    # Added up in binary fractions, as a route of many parts is.
    assert round_up_m(sum([0.1] * steps)) == pytest.approx(steps / 10)


@given(st.floats(0.05, 40))
def test_a_cut_is_never_short(route: float) -> None:
    needed = route * 1.1 + 0.6
    assert needed - 1e-6 <= cut_length_m(route, HOUSE) < needed + 0.1


def test_a_route_of_no_length_is_cut_with_its_two_ends() -> None:
    assert cut_length_m(0, HOUSE) == pytest.approx(2 * HOUSE.cut_end_m)


@pytest.mark.parametrize("bad", [-1, float("inf"), float("nan")])
def test_impossible_lengths(bad: float) -> None:
    with pytest.raises(ValueError, match="negative"):
        cut_length_m(bad, HOUSE)


@pytest.mark.parametrize(
    ("distance", "stock"), [(0.2, 0.5), (0.3, 1.0), (0.7, 1.0), (1.8, 3.0), (4.7, 5.0), (4.8, None)]
)
def test_line_leads_come_in_lengths(distance: float, stock: float | None) -> None:
    assert line_lead_m(distance, HOUSE) == stock


def test_small_parts_of_four_doors() -> None:
    # 8 + 8 joints at the plug and one for the turn-on; the far ends go into screw terminals.
    cuts = [
        Cut("cable 1", 4.6, 5, 1),
        Cut("cable 2", 4.6, 4, 1),
        Cut("cable 3", 4.6, 4, 1),
        Cut("cable 4", 4.6, 4, 1),
    ]
    assert joint_count(cuts) == 17
    parts = pick_list(cuts, HOUSE)
    assert parts.cable_m == 18.4
    assert parts.sleeves_to_pick == 19
    assert parts.ties_to_pick == with_spare(74, HOUSE) == 82


def test_spare_is_rounded_up_but_not_by_noise() -> None:
    assert with_spare(10, HOUSE) == 11
    assert with_spare(1, HOUSE) == 2
    assert with_spare(0, HOUSE) == 0


def test_impossible_cuts() -> None:
    with pytest.raises(ValueError, match="jacket"):
        joint_count([Cut("jacket", 1, 4, 3)])


def test_each_conductor_is_joined_at_each_end_that_is_spliced() -> None:
    cuts = [Cut("both ends", 1, 4, 2), Cut("one end", 1, 3, 1), Cut("plugs on", 1, 5, 0)]
    assert [joint_count([cut]) for cut in cuts] == [8, 3, 0]
    assert joint_count(cuts) == 11
    assert joint_count([Cut("none used", 1, 0, 2)]) == 0
    for ends, conductors in ((-1, 4), (3, 4), (1, -1)):
        with pytest.raises(ValueError, match="jacket"):
            joint_count([Cut("jacket", 1, conductors, ends)])


def test_reels() -> None:
    assert reel_short_m(18.4, 75) == 0
    assert reel_short_m(18.4, 10) == pytest.approx(8.4)
    assert reel_short_m(18.4, None) is None
    assert reel_short_m(18.4, 0) == 18.4


def test_an_end_is_spliced_where_it_meets_a_wire_or_a_lead_and_nowhere_else() -> None:
    """Jackets are spliced at the radio and screwed down at the converter; a supply is crimped."""
    pack = shipped_pack("teasel-subwoofer")
    assert pack.circuit is not None
    index = CircuitIndex(pack.circuit)
    spliced = {cut.name: cut.spliced_ends for cut in cuts_of(index, cut_rows(index, HOUSE))}
    assert (spliced["cable 1"], spliced["lead to subwoofer"], spliced["supply of sub amp"]) == (
        1, 0, 0,
    )  # fmt: skip

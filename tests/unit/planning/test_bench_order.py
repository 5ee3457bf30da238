"""The order of a bench sheet: what explains comes first, wires are told apart before they are cut,
and every sleeve can be put on where its line says."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from pack_jobs import SHIPPED, shipped_pack
from test_loom_jobs import SIDES, SORREL, sheet_of

from builder.planning.harness.joint_places import BARE_MM, BARREL_MM, EMPTY_MM, joint_place


def first(lines: Sequence[str], words: str) -> int:
    """Where a line begins with these words."""
    return next(at for at, line in enumerate(lines) if line.startswith(words))


@pytest.mark.parametrize("name", SHIPPED)
def test_what_explains_an_act_comes_before_it(name: str) -> None:
    """The lines that say what a thing is, before the line that asks for it."""
    for sheet in shipped_pack(name).looms:
        said, rung = sheet.order, first(sheet.order, "now the ring-out")
        joined = next((at for at, x in enumerate(said) if x.startswith("now the joint")), rung)
        forms = [at for at, x in enumerate(said) if x.startswith(('"before', '"after', "a joint"))]
        assert all(at < joined for at in forms)
        assert bool(forms) == any(row.sleeve_on != "none" and row.joint for row in sheet.joints)
        assert sum(x.startswith("lines ") for x in said[:rung]) >= 2
        finding = [at for at, x in enumerate(said) if x.startswith("one wire at a time")]
        assert len(finding) == (sheet.made != "bench")
        assert all(first(said, "make the test leads") < at < joined for at in finding)


@pytest.mark.parametrize("name", SHIPPED)
def test_a_sleeve_waits_on_a_core_only_where_it_comes_back_over_the_joint(name: str) -> None:
    """Two wires from one side: no sleeve threaded on one of them passes the other."""
    for sheet in shipped_pack(name).looms:
        unit = f"{sheet.unit_end}'s half"
        for row in sheet.joints:
            if not row.joint:
                assert row.sleeve_on == "after"
            elif row.sleeve == "wrap of tape":
                assert row.sleeve_on == "none"
            else:
                head_on = row.side == unit or row.side.startswith("far lead")
                assert row.sleeve_on == ("before" if head_on else "after"), row
        ways = {row.sleeve_on for row in sheet.joints if row.joint}
        said = " ".join(sheet.order)
        assert ('"before, on the core"' in said) == ("before" in ways)
        assert ('"after, over the tip"' in said) == ("after" in ways)


def test_a_barrel_is_no_longer_than_what_is_bared_and_a_sleeve_closes_on_insulation() -> None:
    assert BARREL_MM[1] <= BARE_MM
    for side in SIDES:
        place = joint_place(100, side)
        copper = (100 - 15 - BARE_MM, 100 - 15) if side == "unit" else (115, 115 + BARE_MM)
        low, high = place.sleeve_mm
        assert (copper[0] - low, high - copper[1]) == (EMPTY_MM, EMPTY_MM)
    sheet = sheet_of(shipped_pack(SORREL))
    assert sum(f"{EMPTY_MM:g} mm of it are empty" in line for line in sheet.order) == 2
    assert any(f"{BARREL_MM[0]:g} to {BARE_MM:g} mm long" in line for line in sheet.needs)


def test_wires_of_one_colour_get_their_flags_while_they_ring_and_ring_again_when_cut() -> None:
    order = sheet_of(shipped_pack(SORREL)).order
    flags, rung = first(order, "flags, two on each"), first(order, "one wire at a time")
    assert first(order, "remove the tape") < flags < rung < first(order, "now the joint list")
    assert '"radio end" and its cavity at 25 mm, "car end" and its cavity at 350 mm' in order[flags]
    assert "put both its flags on before the next is touched" in order[rung]
    acts = order[first(order, "now the joint list")]
    assert acts.index("Ring it before anything is joined") < acts.index("crimp")


def test_a_core_that_goes_elsewhere_in_the_car_is_rung_before_it_is_closed() -> None:
    """18 AWG, 5.3 m, all of it as copper: 5.3 · 20.95 / 1000 = 0.11 Ω."""
    blues = [line for line in sheet_of(shipped_pack(SORREL)).order if "single 1, blue" in line]
    used, *spare = blues
    assert "at most 0.11 Ω more than the leads alone" in used
    assert used.index("ring it") < used.index("close it off")
    assert len(spare) == 2 and all("ring it" not in line for line in spare)
    assert all("fold it back along its jacket" in line for line in blues)

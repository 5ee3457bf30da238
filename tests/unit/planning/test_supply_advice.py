"""What is said of a supply besides its figures: where its fuse stands, and how far from what."""

from __future__ import annotations

from pack_jobs import HOUSE, shipped_parts

from builder.planning.power.fuse_sizes import FuseDistance, fuse_distance
from builder.planning.power.supply_advice import place_reasons


def of_fuse(distance: FuseDistance | None) -> str:
    """Why the main fuse stands where it does."""
    reasons = place_reasons(shipped_parts("tansy-subwoofer"), distance, "battery", HOUSE)
    (why,) = [each.because for each in reasons if each.decision.startswith("main fuse")]
    return why


def test_a_measured_way_to_the_fuse_stands_beside_both_limits() -> None:
    """Seven inches are 0.1778 m: 33 CFR 183.455(b) (read)."""
    said = of_fuse(fuse_distance(0.3, HOUSE))
    assert said.startswith(f"0.3 m of wire before it, at most {HOUSE.fuse_distance_m:g} m")
    assert "0.18 m" in said and "not measured" not in said


def test_a_way_that_nobody_measured_is_called_that_with_the_limit() -> None:
    said = of_fuse(None)
    assert said == f"the distance is not measured, at most {HOUSE.fuse_distance_m:g} m of wire"

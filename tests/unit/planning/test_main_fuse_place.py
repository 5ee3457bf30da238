"""Where the main fuse is: the same words on every sheet, and its lead as long as was measured."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pack_jobs import HOUSE, shipped_parts
from test_second_battery import second, with_second

from builder.planning.job.make_pack import make_pack
from builder.planning.power.main_fuse import main_fuse_words
from builder.planning.work_pack import JobParts, WorkPack

NAMED = "on the inner wing, left of the battery"


def named(place: str | None, wire_m: float | None = 0.35) -> JobParts:
    parts = shipped_parts("tansy-subwoofer")
    supply = replace(parts.job.supply, main_fuse_place=place, fuse_to_battery_m=wire_m)
    return replace(parts, job=replace(parts.job, supply=supply))


def fuse_joints(pack: WorkPack) -> set[str]:
    return {row.place for row in pack.joints if "holder of the main fuse" in row.meets}


@pytest.mark.parametrize(
    ("parts", "place"),
    [
        (named(NAMED), NAMED),
        (named(None), "close to the battery"),
        (with_second(second(place="under the bench")), "under the bench"),
    ],
)
def test_every_sheet_has_the_same_place(parts: JobParts, place: str) -> None:
    pack = make_pack(parts, defaults=HOUSE)
    assert pack.power is not None and pack.circuit is not None
    (fuse,) = [part for part in pack.circuit.elements if part.id == "main fuse"]
    assert fuse.place == place and fuse_joints(pack) == {place}
    assert pack.power.main_fuse_at.startswith(f"{place}, ")
    (told,) = [line for line in pack.customer if line.startswith("Main fuse")]
    assert pack.power.main_fuse_at in told
    assert any(why.decision == f"main fuse {place}" for why in pack.power.because)


def test_the_wire_before_it_has_one_length() -> None:
    """0.35 m on the cut list and in words, not the 0.4 m that a way is rounded up to."""
    pack = make_pack(named(NAMED), defaults=HOUSE)
    (cut,) = [row for row in pack.cut_list if row.name == "lead to the main fuse"]
    assert cut.cut_m == 0.35 and pack.power is not None
    assert "0.35 m of wire from the battery post (at most 0.45 m)" in pack.power.main_fuse_at
    metres: dict[str, float] = {}
    for row in pack.cut_list:
        metres[row.cable] = metres.get(row.cable, 0.0) + row.cut_m
    bought = {part.item: part.quantity for part in pack.parts if part.unit == "m"}
    by_size = {cable: length for cable, length in metres.items() if "AWG" in cable}
    assert cut.cable in by_size
    for cable, length in by_size.items():
        assert length - 1e-9 <= bought[cable] < length + 0.1


def test_a_length_that_nobody_measured_leaves_the_limit() -> None:
    words = main_fuse_words(named(None, None).job.supply, HOUSE)
    assert words == "close to the battery, at most 0.45 m of wire from its post"

"""What is bought, fitted and closed off: each thing once, in the shape and number it is used in."""

from __future__ import annotations

from collections import Counter

import pytest
from pack_jobs import SHIPPED, shipped_pack, shipped_parts

from builder.planning.circuit.index import CircuitIndex
from builder.planning.power.fuse_sizes import families_with, fuse_family
from builder.planning.views.wiring_rows import made_by_us
from builder.planning.work_pack import WorkPack

PLANNED = [name for name in SHIPPED if shipped_pack(name).kind == "tap_plan"]


def bought(pack: WorkPack, start: str) -> Counter[str]:
    found: Counter[str] = Counter()
    for line in pack.parts:
        if line.item.startswith(start):
            found[line.item] += int(line.quantity)
    return found


@pytest.mark.parametrize("name", PLANNED)
def test_each_fuse_is_bought_in_a_shape_that_is_made_and_has_a_holder_of_that_shape(
    name: str,
) -> None:
    pack = shipped_pack(name)
    assert pack.circuit is not None
    own = [x for x in pack.circuit.elements if x.kind == "fuse" and not x.loom]
    taps = bought(pack, "fuse tap, ")
    fuses = bought(pack, "fuse ") - bought(pack, "fuse holder") - taps
    shapes: Counter[str] = Counter()
    for item, count in fuses.items():
        rating, comma, word = item.removeprefix("fuse ").partition(", ")
        if comma:
            made = families_with(float(rating.removesuffix(" A")))
            assert word in {fuse_family(each).name.removesuffix(" fuse") for each in made}, item
            shapes[word] += count // 2  # one of each is a spare
    assert sum(shapes.values()) >= len(own)
    in_block = sum(x.place == "distribution block" for x in own)
    holders = bought(pack, "fuse holder, ") + taps
    assert sum(holders.values()) == sum(shapes.values()) - in_block
    assert {each.rpartition(", ")[2] for each in holders} <= set(shapes)


@pytest.mark.parametrize("name", PLANNED)
def test_rings_paint_and_tape_are_as_many_as_the_other_sheets_use(name: str) -> None:
    pack = shipped_pack(name)
    rings = [row for row in pack.joints if row.how.startswith("ring terminal")]
    assert bought(pack, "ring terminal")["ring terminal"] == len(rings)
    painted = sum(row.closed_by.startswith("paint or grease") for row in rings)
    notes = [line.note for line in pack.parts if line.item == "paint or grease"]
    assert [note.split()[1] for note in notes] == ([str(painted)] if painted else [])
    bands = sum(label.bands for label in pack.labels)
    tape = [line.quantity for line in pack.parts if line.item == "coloured tape"]
    assert tape == pytest.approx([0.05 * bands] if bands else [], abs=0.1)


def test_every_post_of_a_second_battery_is_joined_by_a_ring() -> None:
    pack = shipped_pack("rook-second-battery")
    posts = ("battery +", "second battery +", "second battery −")
    at = {post: {row.how for row in pack.joints if post in row.meets.split(" and ")}
          for post in posts}  # fmt: skip
    assert all(how == {"ring terminal on bare metal"} for how in at.values()), at
    assert bought(pack, "ring terminal")["ring terminal"] == 7  # the relay has a ground


@pytest.mark.parametrize("name", PLANNED)
def test_the_customer_is_told_of_every_device_that_stays_in_the_car(name: str) -> None:
    pack, parts = shipped_pack(name), shipped_parts(name)
    (told,) = [line for line in pack.customer if line.startswith("Fitted: ")]
    assert pack.circuit is not None
    new = [each.coils.driver if each.coils and each.coils.driver else each.name
           for each in parts.job.speakers if not each.existing]  # fmt: skip
    others = [x.id for x in pack.circuit.units if x.kind in ("interface", "turn_on_load")]
    amplifiers = [each.name for each in parts.amplifiers.values()]
    second = ["second battery"] if parts.job.supply.second_battery else []
    for device in (parts.converter.name, *amplifiers, *new, *others, *second):
        assert device in told, device


def test_what_devices_are_fixed_with_is_bought() -> None:
    lines = {line.item: line for line in shipped_pack("tansy-two-coils").parts}
    assert "fixed to" in lines["set of screws"].note
    assert "hole of 6 mm" in lines["bolts of the board"].note


@pytest.mark.parametrize("name", PLANNED)
def test_each_conductor_is_closed_off_once_and_no_free_terminal_is(name: str) -> None:
    """At the table or in the car, never at both; a terminal with nothing in it is no wire."""
    pack = shipped_pack(name)
    assert pack.circuit is not None
    index = CircuitIndex(pack.circuit)
    said = [line for step in pack.steps if step.text.startswith("close off each") for line in
            step.lines]  # fmt: skip
    assert len(said) == len(set(said))
    looms = {unit.id for unit in pack.circuit.units if unit.kind == "loom"}
    at_table = {
        getattr(index.owners.get(end), "piece", "")
        for joint in pack.circuit.joints
        if joint.place in looms and made_by_us(index, joint)
        for end in joint.joins
    }
    for each in pack.circuit.open_ends:
        owner = index.owners.get(each.end)
        here = each.place in looms or getattr(owner, "piece", "") in at_table
        in_car = owner is not None and not here
        assert (each.what in said) == in_car, each.what
        if owner is None:
            assert "close" not in each.because and "insulate" not in each.because

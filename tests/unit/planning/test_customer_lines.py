"""The customer's sheet and the way back tell the same story as the steps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import product
from pathlib import Path
from random import Random

import pytest
from pack_jobs import HOUSE, SHIPPED, shipped_pack, shipped_parts, unadvised_pack
from samples import many
from shipped_cars import CARS, car

from builder.book import open_book
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.checking.job_parts import job_parts
from builder.planning.bay.hand_over import customer_sheet
from builder.planning.job.sketch_job import CannotSketchError, sketch_job
from builder.planning.words import TurnOnKind
from builder.planning.work_pack import JobParts, WorkPack

BOOK = Path(__file__).parents[3] / "pinouts"
NOTHING = "Nothing of the car's own is lost."

CUT = re.compile(r"^([a-z ]+) \([^)]*\): cut each wire at least")
TAKEN_AWAY = re.compile(
    r"\b(cut each wire at least|unplug|disconnect|remove|take out|switch(ed)? off)\b"
)
"""What a step says when it takes something from the car for good, and any other way to say it."""


def told(pack: WorkPack) -> Iterator[tuple[str, str, str]]:
    """Each step that takes something away, with what customer and way back must say of it."""
    for step in pack.steps:
        if step.phase != "build" or not TAKEN_AWAY.search(step.text):
            continue
        cut = CUT.match(step.text)
        if cut:
            name = cut.group(1)
            cavity = step.lines[0].removeprefix("radio end of ").split(" ")[0]
            yield step.text, name, f"{cavity}: take "
        elif "unplug its microphones" in step.text:
            yield step.text, "its microphones are unplugged", "microphones in again"
        else:
            yield step.text, "nothing says yet what a customer is told of this", ""


def changes(pack: WorkPack) -> list[str]:
    return [line for line in pack.customer if line.startswith("What changes: ")]


def tells_one_story(pack: WorkPack) -> int:
    """Assert that steps, customer's sheet and way back agree; return how much is taken away."""
    said, back = " ".join(changes(pack)), " ".join(pack.revert)
    found = list(told(pack))
    for step, to_customer, to_undo in found:
        assert to_customer in said, (step, pack.customer)
        assert to_undo in back, (step, pack.revert)
    assert (NOTHING in pack.customer) == (not changes(pack))
    assert not (found and NOTHING in pack.customer)
    microphones = "microphones"
    assert (microphones in said) == (microphones in " ".join(step for step, *_ in found))
    assert (microphones in back) == (microphones in said)
    return len(found)


@cache
def checked() -> tuple[Shelf, tuple[Vehicle, ...]]:
    return check_book(open_book(BOOK)).shelf, tuple(map(car, CARS))


def sketches(vehicle: Vehicle) -> Iterator[WorkPack]:
    """The packs of a vehicle with pairs of parts, drawn unless it is the long form."""
    return map(unadvised_pack, sketched_parts(vehicle))


def sketched_parts(vehicle: Vehicle) -> Iterator[JobParts]:
    """The sketched jobs of a vehicle, drawn unless it is the long form."""
    shelf, _ = checked()
    pairs = list(product(shelf.converters.values(), shelf.amplifiers.values()))
    pairs = Random(vehicle.id).sample(pairs, many(len(pairs)))
    for converter, amplifier in pairs:
        try:
            sketch = sketch_job(
                vehicle, converter, [amplifier], list(shelf.cables.values()), defaults=HOUSE
            )
        except CannotSketchError:
            continue
        parts = job_parts(sketch.job, shelf, vehicle)
        assert parts is not None
        yield parts


@pytest.mark.parametrize("name", SHIPPED)
def test_a_shipped_job_tells_its_customer_what_its_steps_do(name: str) -> None:
    pack = shipped_pack(name)
    if pack.kind == "tap_plan":
        tells_one_story(pack)


def test_every_sketch_tells_its_customer_what_its_steps_do() -> None:
    """Every vehicle, with a converter and an amplifier of the book."""
    whole, taken = 0, 0
    for vehicle in checked()[1]:
        for pack in sketches(vehicle):
            if pack.kind == "tap_plan":
                whole += 1
                taken += tells_one_story(pack) > 0
    assert whole > taken > 0


def of_standing(latch_ah_per_day: float | None, turn_on: TurnOnKind) -> list[str]:
    """What the customer is told of a converter that stays awake after each lock."""
    name = "lovage-mid-subwoofer"
    pack = shipped_pack(name)
    assert pack.power is not None
    plan = replace(pack.plan, turn_on=replace(pack.plan.turn_on, kind=turn_on))
    power = replace(pack.power, latch_ah_per_day=latch_ah_per_day)
    told = customer_sheet(shipped_parts(name), plan, pack.losses, power, (), (), ())
    return [line for line in told if "stays awake" in line]


def test_staying_awake_is_told_of_what_wakes_by_itself_and_where_it_was_measured() -> None:
    assert of_standing(0.5, "signal_wake") == [
        "After each lock it stays awake for a while, 0.50 Ah a day."
    ]
    assert of_standing(None, "offset_wake") == []
    assert of_standing(0.5, "accessory") == []


def test_the_customer_is_told_where_the_main_fuse_is_in_the_words_of_the_sheet() -> None:
    name = "lovage-mid-subwoofer"
    pack = shipped_pack(name)
    assert pack.power is not None

    def of_fuse(**more: float | None) -> list[str]:
        power = replace(pack.power, **more)  # type: ignore[type-var]
        told = customer_sheet(shipped_parts(name), pack.plan, pack.losses, power, (), (), ())
        return [line.partition(". ")[0] for line in told if line.startswith("Main fuse:")]

    said = f"Main fuse: 60 A, {pack.power.main_fuse_at}"
    assert of_fuse(main_fuse_a=60.0) == [said] and "of wire from its post" in said
    assert of_fuse(main_fuse_a=None) == []
    nobody = customer_sheet(shipped_parts(name), pack.plan, pack.losses, None, (), (), ())
    assert not any("fuse:" in line for line in nobody)

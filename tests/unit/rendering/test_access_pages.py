"""The page of a car shows what comes off, in order, and where a restraint part may be near."""

from __future__ import annotations

from dataclasses import replace

import pytest
from page_samples import Tags, page_of, sample, sample_shelf

from builder.model.job import Job
from builder.model.vehicle import Vehicle
from builder.model.words import Tri
from builder.rendering.pages.caution import Caution
from builder.rendering.pages.cautions import cautions_of

NEAR = "Restraint part near the radio"


@pytest.fixture(scope="module")
def vehicle() -> Vehicle:
    record = sample("vehicles")
    assert isinstance(record, Vehicle)
    return record


def page_text(vehicle: Vehicle) -> str:
    return " ".join(Tags(page_of(vehicle, sample_shelf()).body_html).text.split())


def said(vehicle: Vehicle, radio: Tri, ring: Tri) -> Vehicle:
    removal = vehicle.radio.removal
    assert removal is not None
    first, *rest = vehicle.access
    radio_unit = replace(vehicle.radio, removal=replace(removal, restraint=radio))
    return replace(vehicle, radio=radio_unit, access=(replace(first, restraint=ring), *rest))


def near(vehicle: Vehicle) -> list[Caution]:
    return [caution for caution in cautions_of(vehicle) if caution.title == NEAR]


def test_what_comes_off_before_the_radio_is_named_in_order(vehicle: Vehicle) -> None:
    behind = replace(vehicle.access[0], behind=("load floor",))
    text = page_text(replace(vehicle, access=(behind, *vehicle.access[1:])))
    assert "Comes off first, in this order: load floor, trim ring." in text


def test_each_part_is_shown_with_its_steps_and_what_holds_it(vehicle: Vehicle) -> None:
    text = page_text(vehicle)
    assert (
        "trim ring panel radio – prise it off from below with a flat plastic lever. Mind: " in text
    )
    assert "left luggage side load floor two screws" in text
    assert "Held by 2 × six-lobe 20, 5 × plastic clip" in text
    assert "With it: yellow plug under the seat. Slides 210 mm yes 15 min" in text
    assert "main grommet left of the brake booster engine bay and driver's footwell own" in text


def test_a_car_of_which_nobody_said_anything_has_no_such_heading(vehicle: Vehicle) -> None:
    text = page_text(replace(vehicle, access=(), passages=()))
    assert "What comes off" not in text and "Ways through" not in text
    assert "Comes off first" not in text


@pytest.mark.parametrize(
    ("radio", "ring", "words"),
    [
        ("yes", "no", "Within reach of the work on: the radio. Battery"),
        ("no", "yes", "Within reach of the work on: trim ring. Battery"),
        ("unknown", "no", "Not said, so take it as near, for: the radio. Battery"),
        ("yes", "unknown", "the radio. Not said, so take it as near, for: trim ring. Battery"),
    ],
)
def test_a_restraint_part_near_the_radio_is_a_danger(vehicle, radio, ring, words) -> None:
    (caution,) = near(said(vehicle, radio, ring))
    assert words in caution.text and caution.weight == "danger"


def test_where_somebody_looked_and_there_is_none_nothing_is_said(vehicle: Vehicle) -> None:
    assert near(said(vehicle, "no", "no")) == []


def test_without_a_list_of_zones_the_caution_says_how_long_to_wait(vehicle: Vehicle) -> None:
    bare = replace(vehicle, safety=replace(vehicle.safety, restraint_zones=()))
    (caution,) = near(said(bare, "yes", "no"))
    assert "a wait whose length nobody has recorded" in caution.text


def test_what_breaks_on_the_way_to_the_radio_comes_first(vehicle: Vehicle) -> None:
    (caution,) = [each for each in cautions_of(vehicle) if each.topic == "removal"]
    assert (
        caution.text
        == "trim ring: the hazard-switch ribbon is short; the radio's plugs are on short leads"
    )


def of_job(vehicle: Vehicle, **changed: str) -> dict[str, str]:
    job = sample("jobs")
    assert isinstance(job, Job)
    here = replace(job, amplifiers=(), routes=(), passes=(), **changed)
    return {caution.title: caution.text for caution in cautions_of(vehicle, here)}


def test_a_job_is_told_what_comes_off_and_with_what_it_is_held(vehicle: Vehicle) -> None:
    said = of_job(vehicle, converter_place="left luggage side")
    assert said["Comes off for this job"] == (
        "load floor; left luggage trim (2 × six-lobe 20, 5 × plastic clip)"
    )
    assert "Restraint part near what comes off" not in said


def test_a_job_under_a_seat_is_told_of_its_restraint_part(vehicle: Vehicle) -> None:
    said = of_job(vehicle, converter_place="under the left front seat")
    assert "left front seat" in said["Restraint part near what comes off"]


def test_a_job_that_takes_nothing_off_is_told_nothing(vehicle: Vehicle) -> None:
    assert "Comes off for this job" not in of_job(vehicle, converter_place="roof")

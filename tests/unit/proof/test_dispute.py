"""Disputes: who says what, which reading decides, and what helps when none does."""

from __future__ import annotations

from dataclasses import replace

from proof_cars import claim, full_constant, pin, reading, session, speaker, vehicle

from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Resolution, Vehicle
from builder.proof.band import where_in
from builder.proof.contradictions.dispute import LOADED, Dispute, dispute_of
from builder.proof.grading.grade import grade_pin

HOUSE = HouseDefaults()
TWO = (session(), session("s2", "harbour-sound"))


def dispute(car: Vehicle, wire: Pin) -> Dispute | None:
    return dispute_of(car, wire, grade_pin(car, wire, HOUSE), HOUSE)


def constant_against_paper(says: str) -> tuple[Vehicle, Pin]:
    wire = pin("1", "constant", readings=full_constant(), claims=(claim("b", "paper", says),))
    return vehicle(wire, sessions=TWO), wire


def test_a_pin_that_nobody_disputes_has_no_dispute() -> None:
    wire = pin("1", "constant", readings=full_constant())
    assert dispute(vehicle(wire, sessions=TWO), wire) is None


def test_both_sides_are_named_with_their_evidence() -> None:
    found = dispute(*constant_against_paper("accessory"))
    assert found is not None
    assert (found.ours.says, found.theirs.says) == ("constant", "accessory")
    assert [item.contributor for item in found.ours.items] == ["alder-pit-audio"]
    assert [item.contributor for item in found.theirs.items] == ["b"]
    assert (round(found.ours.strength, 2), round(found.theirs.strength, 2)) == (0.80, 0.40)


def test_the_deciding_reading_has_an_answer_for_each_side_and_none_fits_both() -> None:
    found = dispute(*constant_against_paper("accessory"))
    assert found is not None
    assert found.decides is not None
    ours, theirs = found.decides.answers
    assert found.decides.measurement.load == "none"
    assert (ours.function, theirs.function) == ("constant", "accessory")
    for tenth in range(0, 160):
        fits = [any(where_in(row.band, tenth / 10, 12.4) == "in" for row in side.rows)
                for side in (ours, theirs)]  # fmt: skip
        assert fits != [True, True], tenth / 10
    assert found.decides.safety.startswith("Meter only")


def test_where_no_reading_decides_what_tells_the_two_apart_by_hand_stands_instead() -> None:
    shield = pin("1", "ground", readings=(reading("run", 0.03, load="1a"),),
                 claims=(claim("b", "paper", "shield"),))  # fmt: skip
    found = dispute(vehicle(shield, sessions=TWO), shield)
    assert found is not None
    assert found.decides is None
    assert found.instead.startswith("no single reading decides against a cable shield. Follow")


def test_the_other_leg_of_a_pair_is_no_other_function() -> None:
    readings = (reading("radio_on_zero", 6.4),)
    leg = speaker("3", "positive", *readings, claims=(claim("b", "paper", "speaker",
                  channel="front-right", leg="positive"),))  # fmt: skip
    found = dispute(vehicle(leg, sessions=TWO), leg)
    assert found is not None
    assert found.decides is None
    assert "play a tone" in found.instead


def test_a_meter_against_a_meter_names_what_the_other_readings_fit() -> None:
    theirs = (
        reading("asleep", 0.02, session="s2"),
        reading("accessory", 12.4, session="s2"),
        reading("retained", 0.01, session="s2"),
    )
    wire = pin("1", "constant", readings=(*full_constant(), *theirs))
    found = dispute(vehicle(wire, sessions=TWO), wire)
    assert found is not None
    assert found.theirs.says == "accessory"
    assert found.decides is not None
    assert found.decides.answers[1].function == "accessory"


def test_readings_that_fit_nothing_ask_for_the_same_reading_again() -> None:
    sags = (reading("run", 4.1, session="s2", load="1a"), reading("asleep", 12.6, session="s2"))
    wire = pin("1", "constant", readings=(*full_constant(), *sags))
    found = dispute(vehicle(wire, sessions=TWO), wire)
    assert found is not None
    assert found.decides is not None
    again = found.decides.measurement
    assert (again.state, again.load, found.decides.safety) == ("run", "1a", LOADED)
    assert found.decides.answers[1].rows == ()


def test_a_resolution_ends_it() -> None:
    car, wire = constant_against_paper("accessory")
    settled = Resolution(
        pin="A.1",
        by="c",
        date="2024-06-01",
        deciding="12.6 V",
        retires=("b",),
        path=("resolutions", 0),
    )
    assert dispute(replace(car, resolutions=(settled,)), wire) is None

"""The shipped record whose dispute was settled: what lost stays in sight and counts no more."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
import shipped_cars

from builder.model.book import Shelf
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import Pin
from builder.model.vehicle import Vehicle
from builder.proof.grading.grade import grade_pin
from builder.proof.pin_proof import prove
from builder.rendering.page import BuildInfo
from builder.rendering.pages.vehicle import vehicle_page
from builder.rendering.terminal import vehicle_text

HOUSE = HouseDefaults()
NAME = "mirdle-cutter-1996"
LOST, DECIDED_BY = "quayside-fitters", "hollow-lane-garage"


@pytest.fixture(scope="module")
def car() -> Vehicle:
    return shipped_cars.car(NAME)


def wire(car: Vehicle) -> Pin:
    return next(pin for plug in car.plugs if plug.id == "A" for pin in plug.pins
                if pin.cavity == "5")  # fmt: skip


def test_the_record_says_who_when_by_which_reading_and_with_what_outcome(car: Vehicle) -> None:
    (end,) = car.resolutions
    assert (end.pin, end.by, end.date) == ("A.5", DECIDED_BY, "2023-07-15")
    assert "with a tape playing" in end.deciding
    assert end.outcome == "aerial turn-on output, of no use to an amplifier"
    assert end.retires == (LOST,)
    assert any(claim.by == LOST for claim in wire(car).claims)


def test_the_claim_that_lost_no_longer_counts_and_without_the_entry_it_would(car: Vehicle) -> None:
    settled = grade_pin(car, wire(car), HOUSE)
    unsettled = grade_pin(replace(car, resolutions=()), wire(car), HOUSE)
    assert unsettled.band == "disputed"
    assert settled.band == "good"
    assert settled.opposition < unsettled.opposition
    (lost,) = [item for item in settled.items if item.contributor == LOST]
    assert (lost.retired, lost.weight) == (True, 0.0)
    assert lost not in settled.counted
    without = [claim for claim in wire(car).claims if claim.by != LOST]
    never = replace(wire(car), claims=tuple(without))
    assert grade_pin(car, never, HOUSE).score == settled.score


def test_its_page_strikes_it_through_and_says_so_in_words_with_the_reason(car: Vehicle) -> None:
    proofs = prove(car, HOUSE)
    page = vehicle_page(car, Shelf(), proofs, [], [], BuildInfo("loombook", "0.1.0", "2024-01-01"))
    document = page.body_html
    start = document.index('id="pin-A-5"')
    pin = document[start : document.index("</tbody>", start)]
    struck = re.findall(r"<b>(Set aside[^<]*)</b> <s>(.*?)</s>([^<]*)", pin)
    assert len(struck) == 2  # among the evidence and among the claims
    for before, inside, after in struck:
        assert before.startswith("Set aside")
        assert LOST in inside
        assert f"superseded by {DECIDED_BY}, 2023-07-15, because 12.16 V on the tuner" in after
    assert "Set aside, no longer counted:" in pin
    settled = document[document.index('id="resolutions"') :]
    assert "So it is: aerial turn-on output, of no use to an amplifier." in settled
    assert f"set aside, no longer counted: {LOST}" in settled
    assert 'id="dispute-A-5"' not in document


def test_the_command_says_how_it_ended(car: Vehicle) -> None:
    text = vehicle_text(car, prove(car, HOUSE), [])
    assert f"Settled: A.5, by {DECIDED_BY}, 2023-07-15: 12.16 V on the tuner" in text
    assert f"set aside, no longer counted: {LOST}" in text

"""`next`: what it lists first is what a reading then opens."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from evidence_book import BRINDLE, sheet_file, small_book
from shipped_book import loombook

from builder.planning.job.wanted_pins import WantedPin
from builder.rendering.measure_next_text import why_wanted


@pytest.fixture
def book(tmp_path):
    return small_book(tmp_path / "book")


def wanted(book, *options):
    return json.loads(loombook("next", book, "--format", "json", *options).output)["next"]


def test_the_reading_listed_first_opens_its_plan_and_is_wanted_no_more(book, tmp_path):
    first = wanted(book)[0]
    assert (first["vehicle"], first["place"], first["waiting"]) == (BRINDLE, "A.11", 2)
    (asked,) = first["readings"]
    line = (
        f"{{plug: {asked['plug']}, cavity: {asked['cavity']}, state: {asked['state']}, "
        f"load: {asked['load']}, quantity: {asked['quantity']}, value: 11.9, battery_v: 12.4}}"
    )
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {BRINDLE}", line)
    loombook("evidence", "add", sheet, "--book", book)
    assert loombook("mend", "--book", book).exit_code == 0  # the acceptance it made needless
    done = loombook("plan", BRINDLE, "--converter", "cvn-2p", "--book", book)
    assert done.exit_code == 0, done.output
    places = [(one["vehicle"], one["place"], one["waiting"]) for one in wanted(book)]
    assert (BRINDLE, "A.11", 2) not in places


def test_limit_and_make(book):
    assert len(wanted(book, "--limit", "2")) == 2
    assert wanted(book, "--make", "nobody") == []
    assert {one["vehicle"].split("-")[0] for one in wanted(book, "--make", "OSTREL")} == {"ostrel"}


def test_in_words_each_pin_says_why(book):
    text = loombook("next", book, "--limit", "1").output
    assert "A.11" in text and "2 plans wait for it, a visit of about 44 min" in text
    assert "50 mA load" in text


def test_a_pin_whose_plans_wait_for_others_too_says_so():
    """Else a short visit stands under a long one, and nobody sees why."""
    pin = WantedPin("v", "V", "A.1", "speaker", "check first", (), "", 2, 0, 2.0, 0.1, 40.0)
    assert why_wanted(pin) == "2 plans wait for it, a visit of about 40 min"
    shared = replace(pin, opens=0.4, visit_min=13.0)
    assert why_wanted(shared) == "2 plans wait for it and for other pins, a visit of about 13 min"
    assert shared.rank > pin.rank


def test_the_health_page_lists_the_same_pin_first(book, tmp_path):
    loombook("build", book, "--output", tmp_path / "site")
    page = (tmp_path / "site" / "health.html").read_text("utf-8")
    first = page.split('id="first-title"')[1].split("<li>")[1]
    assert f"vehicles/{BRINDLE}.html#pin-a-11" in first.lower()

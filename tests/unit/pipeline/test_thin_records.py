"""A thin record is a state: it is checked, built and shown, and its plans wait for the rest."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from damaged_books import replaced
from evidence_book import BRINDLE, TANSY, small_book, vehicle_file
from shipped_book import loombook

from builder.book import open_book
from builder.findings import Finding
from builder.pipeline.checking.book_check import check_book

THIN = """\
schema: 1
id: ostrel-thistle-2014
data: invented
make: Ostrel
model: Thistle
variant: nobody has looked yet
scope: {year_from: 2014, year_to: 2015, bodies: [all], markets: [all], drive_side: both,
  trims: [all], options_any: [], options_none: [], radios: [unknown]}
how_to_tell: []
radio: {outputs: unknown, open_load_check: unknown, data_wake: unknown}
factory_amplifier: {feed: unknown}
features: {start_stop: unknown, hybrid: unknown, noise_cancellation: unknown,
  engine_sound: unknown, emergency_call: unknown}
protected_sounds: []
power:
  battery: {location: unknown, sensor_on_negative: unknown}
safety: {restraint_zones: [], high_voltage_zones: [], restraint_wait_min: unknown}
fuse_positions: []
channels:
  - {channel: front-left, driven_by: radio, band: unknown}
sessions: []
plugs:
  - id: A
    name: plug A
    unit: radio
    location: behind the radio
    housing: two-row-20-latch-top
    shell_colours: [unknown]
    read_from: unknown
    pins:
      - {cavity: 1, function: constant}
      - {cavity: 3, function: speaker, channel: front-left, leg: positive}
      - {cavity: 7, function: unknown}
"""
THISTLE = "ostrel-thistle-2014"
ACCEPTED = (
    "accept:\n  - {{rule: {rule}, at: {at}, reason: not yet measured, who: quayside-fitters}}\n"
)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    made = small_book(tmp_path / "book")
    vehicle_file(made, THISTLE).write_text(THIN, "utf-8")
    return made


def findings(book: Path, vehicle: str = THISTLE) -> list[Finding]:
    checked = check_book(open_book(book))
    return [finding for finding in checked.findings if vehicle in finding.file]


def test_a_car_of_which_nothing_is_proved_passes_the_check(book: Path) -> None:
    waiting = {finding.rule_id for finding in findings(book) if finding.stands_open}
    assert {"EVD101", "PIN104", "PIN106", "PIN115"} <= waiting
    done = loombook("check", book)
    assert done.exit_code == 0, done.output
    assert "stop (not yet known) EVD101" in done.output
    assert re.search(r"nothing to mend \(.*\d+ of them not yet known", done.output)


def test_what_is_wrong_in_it_still_fails(book: Path) -> None:
    replaced(
        vehicle_file(book, THISTLE), "{cavity: 7, function: unknown}", "{cavity: 1, function: run}"
    )
    assert {f.rule_id for f in findings(book) if f.fails_check} == {"PIN101"}
    assert loombook("check", book).exit_code == 1


def test_its_plans_are_probe_plans_or_none(book: Path) -> None:
    for converter in ("cvn-2a", "cvn-4a"):
        done = loombook("plan", THISTLE, "--converter", converter, "--book", book)
        assert done.exit_code == 1 and "NO PLAN" in done.output
        assert "PIN106" in done.output and "PIN115" in done.output


def test_the_whole_book_is_built_and_its_page_says_what_is_proved(
    book: Path, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    done = loombook("build", book, "--output", site)
    assert done.exit_code == 0, done.output
    page = re.sub(r"<[^>]+>", " ", (site / "vehicles" / f"{THISTLE}.html").read_text("utf-8"))
    said = " ".join(page.split())
    assert "unproved" in said and "0 of 2 pins are proved" in said
    assert "nobody has measured or claimed A.1" in said
    assert (site / "vehicles" / f"{TANSY}.html").exists()


@pytest.mark.parametrize(("rule", "at"), [("EVD102", "A.9"), ("EVD102", "A")])
def test_an_acceptance_of_thinness_is_a_note_that_mend_removes(
    book: Path, rule: str, at: str
) -> None:
    place = vehicle_file(book, BRINDLE)
    replaced(place, "accept: []\n", ACCEPTED.format(rule=rule, at=at))
    said = [finding for finding in findings(book, BRINDLE) if finding.rule_id == "BOK116"]
    assert [(finding.severity.word, bool(finding.fix)) for finding in said] == [("note", True)]
    assert not any(f.accepted for f in findings(book, BRINDLE) if f.rule_id == rule)
    assert loombook("mend", place, "--book", book).exit_code == 0
    assert rule not in place.read_text("utf-8")
    assert [f for f in findings(book, BRINDLE) if f.rule_id == "BOK116"] == []


def test_an_acceptance_of_a_fix_still_lets_a_plan_pass(book: Path) -> None:
    """A fix is a plan only with a stated override, thin or not."""
    place = vehicle_file(book, THISTLE)
    place.write_text(THIN + ACCEPTED.format(rule="PIN104", at="A.3"), "utf-8")
    assert [f.accepted for f in findings(book) if f.rule_id == "PIN104"] == ["not yet measured"]
    assert "BOK116" not in {finding.rule_id for finding in findings(book)}

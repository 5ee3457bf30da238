"""Jobs in a book: references, acceptances, and packs that are taken back."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook
from shipped_cars import car

from builder.book import open_book
from builder.findings import Severity
from builder.model.job import Job
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.job_parts import job_parts
from builder.pipeline.checking.jobs import CheckedJob, DecidedJob, decide_job
from builder.pipeline.checking.records import read_record

JOB = "tansy-subwoofer"

SHIPPED = {
    "cutter-fronts": "tap_plan",
    "teasel-subwoofer": "tap_plan",
    "teasel-four-doors": "tap_plan",
    "tansy-two-coils": "tap_plan",
    "tansy-subwoofer": "tap_plan",
    "tansy-subwoofer-finished": "tap_plan",
    "leto-four-doors": "tap_plan",
    "dash-converter": "tap_plan",
    "ullin-split-fronts": "probe_plan",
    "rook-two-amplifiers": "tap_plan",
    "rook-second-battery": "tap_plan",
    "tarn-subwoofer": "tap_plan",
    "lovage-mid-subwoofer": "tap_plan",
    "sedge-fronts": "tap_plan",
    "sorrel-five-channels": "tap_plan",
}


@pytest.fixture
def book(small_book: Path) -> Path:
    """The small book with the one job of its vehicle."""
    (small_book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", small_book / "jobs")
    return small_book


def edit(book: Path, old: str, new: str) -> None:
    path = book / "jobs" / f"{JOB}.yaml"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def accept(book: Path, rule: str) -> None:
    edit(book, "accept: []", f"accept: [{{rule: {rule}, reason: seen and left, who: some-shop}}]")


def the_job(book: Path) -> CheckedJob:
    (job,) = check_book(open_book(book)).jobs
    return job


def nothing_to_work_from(book: Path) -> bool:
    """Whether the pack of the job holds nothing that could be joined, cut or ordered."""
    pack = decided(check_book(open_book(book)), JOB).pack
    held = (pack.plan.feeds, pack.conductors, pack.cut_list, pack.steps, pack.parts, pack.tests)
    return pack.plan.kind == "no_plan" and not any(held) and bool(pack.refusals)


def rules(job: CheckedJob, least: Severity = Severity.FIX) -> list[str]:
    return sorted(found.rule_id for found in job.findings if found.severity <= least)


def test_a_job_in_order_has_a_tap_plan_and_nothing_to_mend(book: Path) -> None:
    job = the_job(book)
    assert (job.pack, rules(job)) == ("tap_plan", [])


def test_jobs_are_counted_and_the_newest_result_dates_the_book(book: Path) -> None:
    before = check_book(open_book(book))
    edit(book, "follow_up: []", "follow_up: [{date: 2031-01-02, outcome: no fault}]")
    after = check_book(open_book(book))
    assert after.records == before.records
    assert after.as_of == "2031-01-02"


def test_a_broken_reference_has_its_place_and_no_pack_is_made(book: Path) -> None:
    edit(book, "converter: cvn-2a", "converter: cvn-4")
    done = loombook("check", book)
    assert done.exit_code == 1
    line = 1 + (book / "jobs" / f"{JOB}.yaml").read_text("utf-8").split("cvn-4\n")[0].count("\n")
    assert f"{JOB}.yaml:{line}:12: stop TOP101" in done.output
    assert 'did you mean "cvn-4a"?' in done.output
    assert the_job(book).pack == ""


def test_two_jobs_of_one_id_are_found(book: Path) -> None:
    (book / "jobs" / "zz-more").mkdir()  # read after the other, so it is the second of that id
    shutil.copy(book / "jobs" / f"{JOB}.yaml", book / "jobs" / "zz-more")
    done = loombook("check", book)
    assert done.exit_code == 1
    assert f"zz-more/{JOB}.yaml:5:5: stop BOK102" in done.output


def test_a_job_without_its_vehicle_says_so_once(book: Path) -> None:
    edit(book, "vehicle: ostrel-tansy-2017-hatch-base", "vehicle: ostrel-tansy-2018")
    assert rules(the_job(book)) == ["TOP101"]


def test_a_job_of_a_vehicle_that_cannot_be_read_waits_for_it(book: Path) -> None:
    path = book / "vehicles" / "ostrel" / "ostrel-tansy-2017-hatch-base.yaml"
    path.write_text(path.read_text("utf-8").replace("make: Ostrel", "mak: Ostrel"), "utf-8")
    job = the_job(book)
    assert (job.pack, rules(job)) == ("", [])


def test_an_open_fix_takes_the_plan_back_and_an_acceptance_gives_it(book: Path) -> None:
    edit(book, "fuse_to_battery_m: 0.3", "fuse_to_battery_m: 0.5")
    assert (the_job(book).pack, rules(the_job(book))) == ("no_plan", ["PWR103"])
    assert nothing_to_work_from(book)
    accept(book, "PWR103")
    job = the_job(book)
    assert job.pack == "tap_plan"
    assert [found.accepted for found in job.findings if found.rule_id == "PWR103"] == [
        "seen and left"
    ]


def test_a_stop_that_can_do_harm_cannot_be_accepted(book: Path) -> None:
    edit(book, "material: copper", "material: copper\n  size_awg: 8")
    accept(book, "PWR101")
    job = the_job(book)
    assert job.pack == "no_plan"
    assert {"PWR101", "BOK111"} <= set(rules(job))
    assert not any(found.accepted for found in job.findings if found.rule_id == "PWR101")


def test_a_milder_finding_of_a_rule_about_harm_can_be_accepted(book: Path) -> None:
    load = "[{name: clock, draw_ma: 150, coil: no}]"
    edit(book, "other_turn_on_loads: []", f"other_turn_on_loads: {load}")
    accept(book, "ONN103")
    job = the_job(book)
    (found,) = [found for found in job.findings if found.rule_id == "ONN103"]
    assert (found.severity, found.accepted) == (Severity.WARN, "seen and left")
    assert "BOK111" not in rules(job)


def test_an_acceptance_that_accepts_nothing_is_found(book: Path) -> None:
    accept(book, "PWR103")
    assert rules(the_job(book)) == ["BOK110"]


def test_a_stop_on_the_vehicle_bars_the_pin_from_the_job(book: Path) -> None:
    path = book / "vehicles" / "ostrel" / "ostrel-tansy-2017-hatch-base.yaml"
    pin = "      - cavity: 11\n"
    text = path.read_text("utf-8")
    assert pin in text
    twice = "      - {cavity: 11, function: illumination}\n" + pin
    path.write_text(text.replace(pin, twice, 1), "utf-8")
    assert the_job(book).pack == "no_plan"


def test_the_example_is_checked_and_is_no_job_of_the_book(shipped: CheckedBook) -> None:
    assert not any(job.file.is_template for job in shipped.jobs)
    assert any(found.file.endswith("jobs/TEMPLATE.yaml") for found in shipped.findings)


def test_every_shipped_job_comes_to_what_it_should(shipped: CheckedBook) -> None:
    assert {job.job.id: job.pack for job in shipped.jobs if job.job} == SHIPPED


def decided(shipped: CheckedBook, name: str) -> DecidedJob:
    files = {file.path.stem: file for file in shipped.book.files()}
    read = read_record(files[name])
    assert isinstance(read.record, Job)
    parts = job_parts(read.record, shipped.shelf, car(read.record.vehicle))
    assert parts is not None
    return decide_job(read, parts, shipped.gate())


@pytest.mark.parametrize("name", SHIPPED)
def test_no_shipped_tap_plan_stands_on_an_open_stop_or_fix(shipped: CheckedBook, name: str) -> None:
    made = decided(shipped, name)
    assert made.pack.kind == SHIPPED[name]
    assert not any(found.fails_check for found in made.findings)
    assert bool(made.pack.refusals) is (made.pack.kind != "tap_plan")


def test_every_line_of_a_finished_sheet_is_within_its_band(shipped: CheckedBook) -> None:
    made = decided(shipped, "tansy-subwoofer-finished")
    read = read_record(next(f for f in shipped.book.files() if f.path.stem == made.pack.job))
    assert isinstance(read.record, Job)
    closed = max(result.date for result in read.record.results)
    then = [test.id for test in made.pack.tests if test.since <= closed]
    assert sorted(r.test for r in read.record.results) == sorted(then)  # loud lines come later now
    assert not any(found.rule_id.startswith("SAF") for found in made.findings)

"""From a shop's own book nothing is written into the shared one that it draws on."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from evidence_book import BRINDLE, JOB, TANSY, sheet_file, small_book, texts, vehicle_file
from shipped_book import loombook
from shipped_cars import typed_text

from builder.book import open_book

LOUD = (
    "{plug: A, cavity: 11, state: radio_on_zero, load: 50ma, "
    "quantity: dc_v, value: 11.9, battery_v: 12.4}"
)


OLD = "old_notes:\n  - {plug: A, cavity: 11, by: third-bay, quantity: dc_v, value: 11.2}\n"


@pytest.fixture
def shared(tmp_path: Path) -> Path:
    return small_book(tmp_path / "common")


@pytest.fixture
def own(tmp_path: Path, shared: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The shop's own book, with a car of its own; the command stands in it."""
    assert loombook("start", tmp_path / "ours", "--shared", shared).exit_code == 0
    car = tmp_path / "ours" / "vehicles" / "ostrel" / "ostrel-own-2017.yaml"
    car.parent.mkdir()
    text = typed_text(TANSY)
    text = text.replace(f"id: {TANSY}", "id: ostrel-own-2017").replace("model: Tansy", "model: Own")
    car.write_text(text, "utf-8")
    monkeypatch.chdir(tmp_path / "ours")
    return car


def damage(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"base: pink", b"base: Pink"))


def test_fix_mends_the_own_record_and_names_the_book_it_left_alone(own, shared):
    damage(own)
    damage(vehicle_file(shared, TANSY))
    before = texts(shared)
    done = loombook("mend")
    assert "2 mended in 1 file" in done.output  # the colour, and the way to the schema
    assert "left alone: the shared book at" in done.stderr and str(shared) in done.stderr
    assert texts(shared) == before and b"base: pink" in own.read_bytes()
    assert "1 mended in 1 file" in loombook("mend", "--book", shared).output  # asked there
    assert b"base: pink" in vehicle_file(shared, TANSY).read_bytes()


@pytest.mark.parametrize("command", ["mend", "tidy"])
def test_a_shared_record_named_outright_is_refused_with_where_to_go(own, shared, command):
    damage(vehicle_file(shared, TANSY))
    before = texts(shared)
    done = loombook(command, vehicle_file(shared, TANSY))
    assert done.exit_code == 2 and texts(shared) == before
    assert f"belongs to the shared book at {shared}; run it there" in done.output


def test_format_leaves_shared_records_as_they_are(own, shared):
    untidy = vehicle_file(shared, TANSY)
    for path in (own, untidy):
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    before = texts(shared)
    assert loombook("tidy", "--check").exit_code == 1
    assert "1 of" in loombook("tidy").output
    assert texts(shared) == before and b"\r" not in own.read_bytes()
    assert loombook("tidy", "--check").exit_code == 0


def test_a_shared_book_fetched_into_the_own_folder_is_still_another_s(own, shared, tmp_path):
    home = tmp_path / "ours"
    shutil.copytree(shared, home / "fetched")
    (home / "fetched" / "book.yaml").write_text("schema: 1\n", "utf-8")
    settings = (home / "book.yaml").read_text("utf-8")
    (home / "book.yaml").write_text(settings.replace("../common", "fetched"), "utf-8")
    book = open_book(home)
    lent = vehicle_file(home / "fetched", TANSY)
    assert book.lender_of(lent) == home / "fetched" and book.lender_of(own) is None
    assert open_book(home / "fetched").lender_of(lent) is None


def test_a_link_to_a_shared_record_does_not_make_it_an_own_one(own, shared, tmp_path):
    link = own.with_name("linked.yaml")
    link.symlink_to(vehicle_file(shared, TANSY))
    lender = open_book(tmp_path / "ours").lender_of(link)
    assert lender is not None and lender.resolve() == shared.resolve()


@pytest.mark.parametrize("options", [(), ("--dry-run",)])
def test_old_notes_of_a_shared_car_are_refused_and_both_ways_on_are_said(
    own, shared, tmp_path, options
):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {BRINDLE}", LOUD)
    sheet.write_text(sheet.read_text("utf-8") + OLD, "utf-8")
    before, ours = texts(shared), texts(tmp_path / "ours")
    done = loombook("evidence", "add", sheet, *options)
    assert done.exit_code == 1 and "stop BAY106" in done.output
    assert texts(shared) == before and texts(tmp_path / "ours") == ours
    assert f"run it there: --book {shared}" in done.output
    assert f"to private/vehicles/ostrel/{BRINDLE}.yaml" in done.output
    assert f"replaces: {{id: {BRINDLE}, reason: our own readings}}" in done.output


def test_readings_of_a_shared_car_become_a_visit_of_the_own_book(own, shared, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {BRINDLE}", LOUD)
    before = texts(shared)
    done = loombook("evidence", "add", sheet)
    (file,) = (tmp_path / "ours").glob(f"visits/{BRINDLE}/third-bay-2025-11-02-zz1-*.yaml")
    assert f"written: visits/{BRINDLE}/{file.name}" in done.output, done.output
    assert texts(shared) == before
    assert "third-bay" in loombook("show", BRINDLE).output
    assert "third-bay" not in loombook("show", BRINDLE, "-b", shared).output
    assert "nothing changed" in loombook("evidence", "add", sheet).output
    done = loombook("visit", "withdraw", file.stem, "--because", "its meter was broken", "--date",
                    "2026-01-02")  # fmt: skip
    assert done.exit_code == 0, done.output
    assert texts(shared) == before


def test_what_the_refusal_says_to_do_works(own, shared, tmp_path):
    sheet = sheet_file(tmp_path / "s.yaml", f"vehicle: {BRINDLE}", LOUD)
    copy = tmp_path / "ours" / "private" / "vehicles" / "ostrel" / f"{BRINDLE}.yaml"
    copy.parent.mkdir()
    text = vehicle_file(shared, BRINDLE).read_text("utf-8")
    line = f"replaces: {{id: {BRINDLE}, reason: our own readings}}\n"
    copy.write_text(text.rstrip("\n") + "\n" + line, "utf-8")
    before = texts(shared)
    done = loombook("evidence", "add", sheet)
    visit = f"private/visits/{BRINDLE}/third-bay-2025-11-02-zz1-"
    (file,) = (tmp_path / "ours").glob(f"{visit}*.yaml")
    assert f"written: {visit}" in done.output and file.name in done.output, done.output
    assert texts(shared) == before
    assert "third-bay-2025-11-02" not in vehicle_file(shared, BRINDLE).read_text("utf-8")


def test_results_of_an_own_job_on_a_shared_car_are_added(own, shared, tmp_path):
    job = tmp_path / "ours" / "private" / "jobs" / "our-job.yaml"
    text = (shared / "jobs" / f"{JOB}.yaml").read_text("utf-8")
    job.write_text(text.replace(f"id: {JOB}", "id: our-job"), "utf-8")
    head = f"vehicle: {TANSY}\njob: our-job"
    sheet = sheet_file(tmp_path / "s.yaml", head, results=("{test: battery-rest, value: 12.6}",))
    before = texts(shared)
    done = loombook("evidence", "add", sheet)
    assert "written: private/jobs/our-job.yaml" in done.output, done.output
    assert texts(shared) == before and "value: 12.6" in job.read_text("utf-8")


def test_check_counts_what_it_only_notes_of_the_shared_book(own, shared):
    whole = loombook("check", "--all")
    done = loombook("check")
    ours = [line for line in done.stdout.splitlines() if line.startswith("vehicles")]
    theirs = [line for line in whole.stdout.splitlines() if line.startswith(str(shared))]
    assert ours and theirs and str(shared) not in done.stdout
    assert f"{shared}: {len(theirs)} warnings and notes of this shared book" in done.stderr
    assert "shown with --all" in done.stderr


def test_check_prints_what_fails_in_the_shared_book_all_the_same(own, shared):
    damage(vehicle_file(shared, TANSY))
    done = loombook("check")
    assert done.exit_code == 1
    failing = [line for line in done.stdout.splitlines() if line.startswith(str(shared))]
    assert failing and all(": stop " in line or ": fix " in line for line in failing)

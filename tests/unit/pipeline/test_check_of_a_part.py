"""`check` of a file or a folder: what it finds there, and where that can be felt."""

from __future__ import annotations

import json
import shutil

import pytest
from shipped_book import PINOUTS, loombook

from builder.api import open_book
from builder.book import open_book as opened
from builder.pipeline.checking.touching import touched_by

TANSY = "ostrel-tansy-2017-hatch-base"
JOB = "tansy-subwoofer"


def names_touched(*chosen: tuple[str, str]) -> set[tuple[str, str]]:
    book = opened(PINOUTS)
    files = [file for file in book.files() if file.name in chosen and not file.is_template]
    assert len(files) == len(chosen)
    return {file.name for file in touched_by(book, files)}


def test_a_housing_is_felt_by_vehicles_and_by_their_jobs() -> None:
    record = open_book(PINOUTS).vehicle(TANSY).record
    housing = record["plugs"][0]["housing"]
    found = names_touched(("housing", housing))
    assert {("housing", housing), ("vehicle", TANSY), ("job", JOB)} <= found
    assert not {kind for kind, _ in found} & {"converter", "amplifier", "cable"}


def test_a_job_shows_what_it_is_made_of_and_no_other_job() -> None:
    found = names_touched(("job", JOB))
    assert [name for kind, name in found if kind == "job"] == [JOB]
    assert ("vehicle", TANSY) in found and {"converter", "amplifier"} <= {kind for kind, _ in found}


@pytest.fixture
def damaged(small_book):
    """A small book with a fault in a car, one in an amplifier, and a job on the car."""
    (small_book / "jobs").mkdir()
    shutil.copy(PINOUTS / "jobs" / f"{JOB}.yaml", small_book / "jobs")
    for name, old, new in (
        (f"vehicles/ostrel/{TANSY}.yaml", "base: pink", "base: Pink"),
        ("amplifiers/amn-4.yaml", "min_v: 9.0", "min_v: 9.0 V"),
    ):
        path = small_book / name
        text = path.read_text("utf-8")
        assert old in text
        path.write_text(text.replace(old, new), "utf-8")
    return small_book


def findings(*words: object) -> tuple[int, list[dict]]:
    done = loombook("check", *words, "--format", "json")
    return done.exit_code, json.loads(done.stdout)["findings"]


def test_a_part_has_the_findings_of_the_whole_book_that_are_about_it(damaged) -> None:
    _, whole = findings(damaged)
    for path in (damaged / "vehicles" / "ostrel" / f"{TANSY}.yaml", damaged / "vehicles"):
        code, part = findings(path)
        files = {each["file"] for each in part}
        assert code == 1 and part == [each for each in whole if each["file"] in files]
        assert any(file.endswith(f"{TANSY}.yaml") for file in files)
        assert not any(file.endswith("amn-4.yaml") for file in files)


def test_a_part_in_order_ends_with_0_beside_one_that_is_not(damaged) -> None:
    assert findings(damaged / "cables")[0] == 0
    assert findings(damaged)[0] == 1
    done = loombook("check", damaged / "amplifiers", damaged / "cables")
    assert done.exit_code == 1 and "amn-4.yaml:" in done.output and TANSY not in done.output


def test_the_book_of_a_path_is_found_from_anywhere(damaged, monkeypatch, tmp_path) -> None:
    monkeypatch.chdir(tmp_path)
    assert findings(damaged / "cables")[0] == 0
    assert findings(damaged / "cables", "--book", damaged)[0] == 0
    monkeypatch.chdir(damaged)
    assert findings("cables") == (0, findings(damaged / "cables")[1])


@pytest.mark.parametrize("path", ["book.yaml", "cables/none.yaml"])
def test_what_is_no_record_is_wrong_use(damaged, path) -> None:
    (damaged / "book.yaml").touch()
    done = loombook("check", damaged / path, damaged / "cables")
    assert done.exit_code == 2 and "Name its book with --book" in done.output


def test_other_jobs_are_not_planned_for_it(damaged, monkeypatch) -> None:
    planned = []
    monkeypatch.setattr(
        "builder.pipeline.checking.kept_jobs.check_job",
        lambda shelves, named, gate, file: planned.append(file.path.stem),
    )
    monkeypatch.setattr("builder.pipeline.checking.book_check._with_same_ids", lambda jobs: [])
    findings(damaged / "interfaces")
    assert planned == []

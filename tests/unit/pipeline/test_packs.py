"""Jobs on their way to pages, data files and the command."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook

from builder.book import open_book
from builder.pipeline.answers.answering import NoSuchRecordError
from builder.pipeline.answers.packs import MadePack, cars_by_id, made_pack, made_packs, packed
from builder.pipeline.checking import jobs
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.site.gone_records import OfBook
from builder.pipeline.site.job_pages import job_data, jobs_by_vehicle, pages_of_job
from builder.pipeline.site.site_writer import SiteWriter
from builder.pipeline.site.written_jobs import JobWork, WrittenJob, jobs_by_part, write_job
from builder.planning.job.make_pack import make_pack
from builder.rendering.page import BuildInfo
from builder.rendering.shell import Shell
from builder.rendering.writing import make_folders

JOB, VEHICLE = "tansy-subwoofer", "ostrel-tansy-2017-hatch-base"
INFO = BuildInfo("loombook", "0.1.0", "2025-05-02")
PARTS = ("<html ", "<title>", "</title><p>", "</p>", "")
SHELL = Shell((PARTS, PARTS), (True, True), (), "loombook 0.1.0")


@pytest.fixture(scope="module")
def checked() -> CheckedBook:
    return check_book(open_book(PINOUTS))


@pytest.fixture(scope="module")
def packs(checked: CheckedBook) -> list[MadePack]:
    return list(made_packs(checked))


def test_every_job_of_the_book_has_a_pack_a_page_and_a_data_file(
    checked: CheckedBook, packs: list[MadePack]
) -> None:
    jobs = [job.job.id for job in checked.jobs if job.job]
    assert [made.pack.job for made in packs] == jobs
    assert [made.pack.kind for made in packs] == [job.pack for job in checked.jobs]
    urls = [page.url for made in packs for page in pages_of_job(made, INFO)]
    back = [f"comebacks/{made.pack.job}.html" for made in packs if made.pack.circuit]
    assert [url for url in urls if url not in back] == [f"jobs/{job}.html" for job in jobs]
    assert [url for url in urls if url.startswith("comebacks/")] == back
    files = dict(job_data(made, INFO) for made in packs)
    assert list(files) == [f"data/jobs/{job}.json" for job in jobs]


def test_the_data_file_keeps_what_was_typed_apart_from_what_was_computed(
    packs: list[MadePack],
) -> None:
    content = json.loads(dict(job_data(made, INFO) for made in packs)[f"data/jobs/{JOB}.json"])
    assert content["record"]["id"] == JOB
    assert "tests" not in content["record"]
    assert "battery-rest" in {test["id"] for test in content["computed"]["pack"]["tests"]}
    assert len(content["computed"]["digest"]) == 8


def test_a_published_finding_does_not_say_where_the_book_stands(packs: list[MadePack]) -> None:
    files = dict(job_data(made, INFO) for made in packs).values()
    shown = [json.loads(file)["computed"]["pack"]["findings"] for file in files]
    assert any(shown)
    for finding in (finding for findings in shown for finding in findings):
        assert finding["file"] in {f"jobs/{made.pack.job}.yaml" for made in packs}


def test_the_sum_changes_with_what_the_pack_says_and_with_nothing_else(
    packs: list[MadePack],
) -> None:
    made = packs[0]
    noted = replace(made.parts, vehicle=replace(made.parts.vehicle, variant="another"))
    assert replace(made, parts=noted).digest == made.digest
    retold = replace(made.pack, plan=replace(made.pack.plan, because=()))
    assert replace(made, pack=retold).digest == made.digest
    first, *rest = made.pack.tests
    moved = replace(made.pack, tests=(replace(first, phase="another"), *rest))
    fewer = replace(made.pack, plan=replace(made.pack.plan, feeds=made.pack.plan.feeds[1:]))
    assert len({made.digest, *(replace(made, pack=each).digest for each in (moved, fewer))}) == 3


def test_a_sum_is_the_same_whoever_asks(checked: CheckedBook, packs: list[MadePack]) -> None:
    """A page names files otherwise than a command, and tries other converters."""
    cars, gate = cars_by_id(checked.book), checked.gate(pages=True)
    asked = (made_pack(checked, job.file, cars, gate) for job in checked.jobs)
    assert [made and made.digest for made in asked] == [made.digest for made in packs]


def written(checked: CheckedBook, folder: Path, *ids: str) -> list[WrittenJob]:
    make_folders(folder, ("jobs/", "comebacks/", "data/jobs/"))
    gate, cars = checked.gate(pages=True), cars_by_id(checked.book)
    writer, of_book = SiteWriter(folder, SHELL), OfBook.of(checked.book, ())
    work = JobWork(writer, INFO, checked, gate, cars, of_book)
    files = [job.file for job in checked.jobs if job.file.path.stem in ids]
    found = [write_job(work, file) for file in files]
    return [one for one in found if isinstance(one, WrittenJob)]


def test_jobs_are_found_from_their_vehicle_and_their_parts(
    checked: CheckedBook, tmp_path: Path
) -> None:
    by_vehicle = jobs_by_vehicle(checked)
    assert f"jobs/{JOB}.html" in [entry.url for entry in by_vehicle[VEHICLE]]
    assert "hesper-moor-2009" not in by_vehicle
    used = jobs_by_part(written(checked, tmp_path, JOB, "leto-four-doors"))
    assert f"jobs/{JOB}.html" in [one.url for one in used["amn-600"]]
    assert "jobs/leto-four-doors.html" not in [one.url for one in used["amn-600"]]


def test_a_job_is_named_whole_or_by_a_part_that_only_it_has() -> None:
    book = open_book(PINOUTS)
    assert packed(book, JOB).pack.job == JOB
    assert packed(book, "leto").pack.job == "leto-four-doors"
    with pytest.raises(NoSuchRecordError, match="could be any of: tansy-subwoofer, tansy"):
        packed(book, "tansy")
    with pytest.raises(NoSuchRecordError, match="--converter"):
        packed(book, VEHICLE)


def test_a_job_that_names_nothing_says_where(tmp_path: Path) -> None:
    book = tmp_path / "book"
    shutil.copytree(PINOUTS, book)
    file = book / "jobs" / f"{JOB}.yaml"
    text = file.read_text("utf-8")
    file.write_text(text.replace("converter: cvn-2a", "converter: cvn-2z"), "utf-8")
    with pytest.raises(NoSuchRecordError, match=rf"jobs/{JOB}\.yaml:\d+:\d+: .*cvn-2z"):
        packed(open_book(book), JOB)


def test_the_command_prints_the_whole_job() -> None:
    done = loombook("plan", JOB, "-b", PINOUTS)
    assert done.exit_code == 0
    assert done.output.startswith("A  THE JOB\nTAP PLAN  ")
    for title in ("WIRING", "LEVELS AND GAINS", "POWER", "BAY SHEET", "BACK TO STOCK"):
        assert f"  {title}\n" in done.output
    data = json.loads(loombook("plan", JOB, "-b", PINOUTS, "--format", "json").output)
    assert (data["job"], data["kind"]) == (JOB, "tap_plan")
    assert data["gains"][0]["set_v_rms"] == pytest.approx(31.6, abs=0.05)


def test_a_job_that_may_not_be_built_ends_with_1() -> None:
    done = loombook("plan", "ullin-split-fronts", "-b", PINOUTS)
    assert done.exit_code == 1
    assert "MEASURE FIRST" in done.output
    assert "BACK TO STOCK" not in done.output


def test_a_treatment_belongs_to_a_converter() -> None:
    done = loombook("plan", JOB, "-b", PINOUTS, "--treatment", "addon")
    assert done.exit_code == 2
    assert "--treatment goes with --converter" in done.output


def test_the_built_site_links_to_its_jobs(shipped_site: Path) -> None:
    site = shipped_site
    assert 'href="jobs/index.html"' in (site / "index.html").read_text("utf-8")
    vehicle = (site / "vehicles" / f"{VEHICLE}.html").read_text("utf-8")
    assert f'href="../jobs/{JOB}.html"' in vehicle
    page = (site / "jobs" / f"{JOB}.html").read_text("utf-8")
    assert f'href="../data/jobs/{JOB}.json"' in page
    assert f'href="../vehicles/{VEHICLE}.html"' in page


def test_a_record_that_cannot_be_read_is_named_instead_of_the_job(tmp_path: Path) -> None:
    for kind, name, broken, word in (
        (
            "vehicles/ostrel",
            VEHICLE,
            ("function: retained", "function: retaind"),
            "retaind",
        ),
        ("converters", "cvn-2a", ("\nkind:", "\nkindd:"), "kindd"),
    ):
        book = tmp_path / name
        shutil.copytree(PINOUTS, book)
        place = book / kind / f"{name}.yaml"
        place.write_text(place.read_text("utf-8").replace(*broken), "utf-8")
        with pytest.raises(NoSuchRecordError, match=rf"{name}\.yaml:\d+:\d+: .*{word}"):
            packed(open_book(book), JOB)


def test_a_plan_that_a_finding_takes_back_joins_and_sets_nothing(tmp_path: Path) -> None:
    book = tmp_path / "book"
    shutil.copytree(PINOUTS, book)
    place = book / "jobs" / f"{JOB}.yaml"
    text = place.read_text("utf-8")
    assert "supply:\n" in text
    place.write_text(text.replace("supply:\n", "supply:\n  size_awg: 6\n"), "utf-8")
    pack = packed(open_book(book), JOB).pack
    assert pack.kind == "no_plan" and "PWR104" in pack.refusals[-1].because
    assert (pack.plan.turn_on.kind, pack.plan.feeds, pack.gains, pack.steps) == ("none", (), (), ())
    assert pack.levels and pack.power  # figures that say why stay


@pytest.mark.parametrize(
    ("words", "packs"),
    [
        (("plan", "tansy-subwoofer"), 1),
        (("plan", "ostrel-tansy-2017-hatch-base", "-c", "cvn-2a"), 0),
        (("plan", "ostrel-tansy-2017-hatch-base", "-c", "cvn-2a", "-a", "amn-600"), 1),
        (("show", "ostrel-tansy-2017-hatch-base"), 0),
        (("why", "tansy-subwoofer"), 1),
        (("why", "mirdle-smew-2004", "A.7"), 0),
        (("new", "bay-sheet", "tansy-subwoofer", "--dry-run"), 1),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, tuple) else str(given),
)
def test_who_asks_about_one_plan_waits_for_no_other(words, packs, monkeypatch):
    made = []

    def counted(parts, **more):
        made.append(parts.job.id)  # several times, to say which other converters would do
        return make_pack(parts, **more)

    monkeypatch.setattr(jobs, "make_pack", counted)
    assert loombook(*words, "--book", PINOUTS).exit_code == 0
    assert len(set(made)) == packs

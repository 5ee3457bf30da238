"""`build`: the whole site from a checked book, swapped in whole."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import NamedTuple

from builder import __version__
from builder.book import RecordFile
from builder.finder.entries import Entry
from builder.findings import Finding
from builder.model.vehicle import Vehicle
from builder.pipeline.answering import finder_entry, grades_data
from builder.pipeline.checking import CheckedBook, Progress
from builder.pipeline.deciding import plans_of
from builder.pipeline.health import health_of
from builder.pipeline.job_pages import job_files, job_pages, jobs_by_part, jobs_on
from builder.pipeline.packs import made_packs
from builder.pipeline.proofs import known_grades, prove
from builder.pipeline.records import read_record
from builder.pipeline.reference_pages import (
    data_files,
    explanation_pages,
    list_pages,
    part_pages,
    prove_pages,
    schema_pages,
)
from builder.pipeline.workers import map_files
from builder.planning.plan_json import plan_as_json
from builder.rendering.links import check_links
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.health import Health, health_page
from builder.rendering.pages.parts import Used
from builder.rendering.pages.plan import plan_page
from builder.rendering.pages.vehicle import vehicle_page
from builder.rendering.pages.wording import plan_url
from builder.rendering.record_json import record_json
from builder.rendering.shell import Shell, build_shell
from builder.rendering.templates import warm
from builder.rendering.writing import fresh_site, make_folders, write_files, write_text


@dataclass(frozen=True, slots=True)
class BuiltSite:
    """What a build made. `broken_links` are sentences, empty when all is well."""

    pages: int
    records: int
    broken_links: tuple[str, ...]


class WrittenVehicle(NamedTuple):
    """What a written vehicle leaves for the index pages and the finder."""

    entry: Entry
    plans: list[tuple[str, Used]]  # converter id, where the plan's page is
    health: Health


@dataclass(frozen=True, slots=True)
class _Site:
    """What every worker needs to write pages."""

    folder: Path
    shell: Shell
    info: BuildInfo
    checked: CheckedBook
    findings: dict[str, list[Finding]]

    def write_page(self, page: Page) -> None:
        write_text(self.folder, page.url, self.shell.pour(page))


def build_site(
    checked: CheckedBook, output: Path, progress: Progress = lambda done, total: None
) -> BuiltSite:
    """Write the site of a checked book to `output`; the old one stays if anything fails.

    Raises:
        FileExistsError: `output` is something that this tool did not make.
    """
    info = BuildInfo(checked.book.site_name, __version__, checked.as_of)
    with (
        tempfile.TemporaryDirectory(prefix="loombook-shell-") as work,
        fresh_site(output) as folder,
    ):
        shell = build_shell(info.site_name, Path(work), _imprint(info), checked.book.defaults)
        warm()
        site = _Site(folder, shell, info, checked, _by_file(checked.findings))
        written = _write_vehicles(site, progress)
        pages = _write_the_rest(site, written)
        broken = check_links(folder)
    return BuiltSite(pages, checked.records, tuple(broken))


def _imprint(info: BuildInfo) -> str:
    return f"loombook {info.tool_version}, data of {info.as_of or 'no date'}"


def _by_file(findings: Sequence[Finding]) -> dict[str, list[Finding]]:
    by_file: dict[str, list[Finding]] = {}
    for finding in findings:
        by_file.setdefault(finding.file, []).append(finding)
    return by_file


def _write_vehicles(site: _Site, progress: Progress) -> list[WrittenVehicle]:
    book_ids = {summary.file for summary in site.checked.summaries}
    files = [file for file in site.checked.book.files() if file.shown in book_ids]
    make_folders(site.folder, ("vehicles/", "plans/", "data/vehicles/"))
    return list(map_files(partial(_write_vehicle, site), files, progress))


def _write_vehicle(site: _Site, file: RecordFile) -> WrittenVehicle:
    """Read one vehicle again and write its page, its plans and its JSON."""
    read, shelf = read_record(file), site.checked.shelf
    vehicle = read.record
    if not isinstance(vehicle, Vehicle):
        raise RuntimeError(f"{file.shown} changed while the site was being built")
    findings = site.findings.get(file.shown, [])
    proofs = prove(vehicle, shelf.defaults)
    grades = known_grades(proofs, shelf.defaults)
    plans = [decided.plan for decided in plans_of(read, vehicle, shelf, findings, grades)]
    jobs = jobs_on(site.checked, vehicle.id)
    site.write_page(vehicle_page(vehicle, shelf, proofs, findings, plans, site.info, jobs))
    for plan in plans:
        converter = shelf.converters[plan.converter]
        site.write_page(plan_page(plan, vehicle, converter, shelf, site.info))
    computed = {
        "grades": grades_data(vehicle, proofs),
        "plans": [plan_as_json(plan) for plan in plans],
    }
    text = record_json("vehicle", read.data, computed, site.info)
    write_text(site.folder, f"data/vehicles/{vehicle.id}.json", text)
    made = [
        (plan.converter, Used(plan_url(plan.vehicle, plan.converter), vehicle.title))
        for plan in plans
    ]
    return WrittenVehicle(finder_entry(vehicle, proofs), made, health_of(vehicle, proofs))


def _write_the_rest(site: _Site, written: Sequence[WrittenVehicle]) -> int:
    """Write lists, parts, rules, schemas, the handbook and data; return the pages of the site."""
    checked, info = site.checked, site.info
    entries = [vehicle.entry for vehicle in written]
    plans = [plan for vehicle in written for plan in vehicle.plans]
    packs = list(made_packs(checked))
    pages = [
        *list_pages(checked, info),
        *part_pages(checked, plans, jobs_by_part(packs), info),
        *job_pages(packs, info),
        *explanation_pages(info),
        *prove_pages(checked.book.defaults, info),
        health_page([vehicle.health for vehicle in written], info),
        *schema_pages(info),
    ]
    make_folders(site.folder, (page.url for page in pages))
    for page in pages:
        site.write_page(page)
    write_files(site.folder, site.shell.files)
    write_files(site.folder, data_files(checked, entries, info))
    write_files(site.folder, job_files(packs, info))
    handbook = sum(url.endswith(".html") for url, _ in site.shell.files)
    return len(written) + len(plans) + len(pages) + handbook

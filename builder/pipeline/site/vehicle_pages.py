"""One vehicle of a site: its page, its plans, its data, written by a worker."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from builder.book import RecordFile
from builder.finder.entries import Entry
from builder.findings import DataPath, Finding
from builder.model.book import Shelf
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.answering import grades_data
from builder.pipeline.answers.kept_entries import finder_entry
from builder.pipeline.answers.measure_next import wanted_of
from builder.pipeline.checking.deciding import plans_of
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.health import health_of
from builder.pipeline.checking.own_fault import OWN_FAULT, own_fault
from builder.pipeline.checking.plan_sum import plan_sum
from builder.pipeline.checking.proofs import known_grades
from builder.pipeline.checking.records import ReadRecord, as_counted, read_record
from builder.pipeline.site.open_data import DataRecord, data_record, data_text
from builder.pipeline.site.photo_files import write_photos
from builder.pipeline.site.site_writer import SiteWriter, WrittenPages
from builder.planning.plan import Plan
from builder.planning.plan_json import plan_as_json
from builder.proof.pin_proof import PinProof, prove
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.health import Health
from builder.rendering.pages.lists import Entry as Listed
from builder.rendering.pages.parts import Used
from builder.rendering.pages.plan import plan_page
from builder.rendering.pages.vehicle import vehicle_page
from builder.rendering.pages.wording import plan_url
from builder.rendering.pins_csv import pin_lines
from builder.rendering.plans_data import plans_data
from builder.rendering.record_json import record_json
from builder.rendering.writing import AddressTakenError, WrittenFile


class WrittenVehicle(NamedTuple):
    """What a written vehicle leaves for index pages, finder, link check and open data."""

    make: str
    entry: Entry
    plans: list[tuple[str, Used]]  # converter id, where the plan's page is
    health: Health
    pages: WrittenPages
    data_files: list[WrittenFile]
    records: list[DataRecord]  # of the vehicle and its visits
    pin_lines: str  # rows of the table of all pins
    photos: list[WrittenFile]

    @property
    def files(self) -> list[WrittenFile]:
        """All files of this vehicle."""
        return [*self.pages.files, *self.data_files]


@dataclass(frozen=True, slots=True)
class VehicleWork:
    """What every worker needs to write vehicles.

    `findings` are by the file they are in, `jobs` those of a vehicle that have a page, by its id.
    """

    writer: SiteWriter
    info: BuildInfo
    shelf: Shelf
    gate: Gate
    findings: Mapping[str, list[Finding]]
    jobs: Mapping[str, list[Listed]]
    private_folders: Sequence[Path]


def write_vehicle(work: VehicleWork, file: RecordFile) -> WrittenVehicle | Finding:
    """Write the page, the plans and the JSON of one vehicle, from the bytes that were checked.

    What nobody foresaw is a finding in the place of the vehicle.
    """
    try:
        return _write(work, file)
    except (OSError, AddressTakenError):
        raise  # of the disk or the site, not of this record
    except Exception as error:
        return own_fault(file.shown, error)


def _write(work: VehicleWork, file: RecordFile) -> WrittenVehicle | Finding:
    shelf = work.shelf
    own = read_record(file)  # what is given away is what was typed: visits have files of their own
    read, defaults = as_counted(own, shelf), shelf.defaults
    vehicle = read.record
    assert isinstance(vehicle, Vehicle)  # the same bytes were one when they were checked
    findings = work.findings.get(file.shown, [])
    proofs = prove(vehicle, defaults, shelf.housings)
    grades = known_grades(proofs, defaults)
    decided = plans_of(read, vehicle, shelf, work.gate, grades)
    failed = [f for one in decided for f in one.findings if f.rule_id == OWN_FAULT.id]
    if failed:
        return failed[0]
    plans = [one.plan for one in decided]
    plain = [plan_as_json(plan) for plan in plans]
    pages = _pages(work, read, vehicle, proofs, findings, plans, plain)
    visits = [read_record(visit) for visit in file.visits]
    return WrittenVehicle(
        vehicle.make,
        finder_entry(vehicle, proofs, file.is_private, [p.converter for p in plans]),
        [(p.converter, Used(plan_url(p.vehicle, p.converter), vehicle.title)) for p in plans],
        health_of(vehicle, proofs, wanted_of(vehicle, proofs, plans, defaults)),
        work.writer.written(map(work.info.marked, pages)),
        [_write_data(work, own, vehicle, proofs, plain), *(_write_visit(work, v) for v in visits)],
        [data_record(each) for each in (own, *visits)],
        pin_lines(vehicle, own.digest, proofs),
        write_photos(work.writer, vehicle, file.path, work.private_folders),
    )


def _pages(
    work: VehicleWork,
    read: ReadRecord,
    vehicle: Vehicle,
    proofs: Mapping[DataPath, PinProof],
    findings: Sequence[Finding],
    plans: Sequence[Plan],
    plain: Sequence[dict[str, Any]],
) -> list[Page]:
    shelf, info = work.shelf, work.info
    jobs = work.jobs.get(vehicle.id, [])
    pages = [vehicle_page(vehicle, shelf, proofs, findings, plans, info, jobs, read.digest[:8])]
    for plan, data in zip(plans, plain, strict=True):
        converter = shelf.converters[plan.converter]
        pages.append(plan_page(plan, vehicle, converter, shelf, info, plan_sum(data), jobs))
    return pages


def _write_data(
    work: VehicleWork,
    read: ReadRecord,
    vehicle: Vehicle,
    proofs: dict[DataPath, PinProof],
    plain: Sequence[dict[str, Any]],
) -> WrittenFile:
    computed: dict[str, Any] = {"grades": grades_data(vehicle, proofs), **plans_data(plain)}
    text = record_json("vehicle", read.data, computed, work.info, read.digest)
    return work.writer.written_text(f"data/vehicles/{vehicle.id}.json", text)


def _write_visit(work: VehicleWork, read: ReadRecord) -> WrittenFile:
    return work.writer.written_text(*data_text(read, work.info))

"""The pages and files of a site that are of no single vehicle or job, and what each rests on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, partial

from builder.model.kinds import PARTS
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.checked_vehicle import CheckedVehicle
from builder.pipeline.checking.kept import words_of_file
from builder.pipeline.site.kept_lists import FileGroup, PageGroup
from builder.pipeline.site.maker_pages import schema_refs
from builder.pipeline.site.open_data import data_files, data_page
from builder.pipeline.site.page_sources import undated
from builder.pipeline.site.reference_pages import (
    PartPage,
    explanation_pages,
    list_pages,
    part_pages,
    prove_pages,
    schema_pages,
    script_files,
)
from builder.pipeline.site.vehicle_row import VehicleRow, sum_of_rows
from builder.pipeline.site.written_jobs import WrittenJob, job_lists, jobs_by_part
from builder.rendering import offline
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.health import health_page
from builder.rendering.pages.lists import make_pages
from builder.rendering.pages.sections import section_pages
from builder.store import sum_of


@dataclass(frozen=True)
class Written:
    """What was written of a checked book by now: its vehicles, each with its row, and its jobs."""

    checked: CheckedBook
    vehicles: Sequence[tuple[CheckedVehicle, VehicleRow]]
    jobs: Sequence[WrittenJob]
    info: BuildInfo

    @cached_property
    def rows(self) -> list[VehicleRow]:
        """What is left of the vehicles."""
        return [row for _, row in self.vehicles]

    @cached_property
    def told(self) -> str:
        """What differs when the summary of any vehicle does."""
        return sum_of(one.told_sum for one, _ in self.vehicles)

    @cached_property
    def entries(self) -> str:
        """What differs when the finder's entry of any vehicle does."""
        return sum_of_rows(self.rows, "entry")

    @cached_property
    def parts(self) -> str:
        """What differs when any part does."""
        files = (f for f in self.checked.book.files() if f.kind in PARTS and not f.is_template)
        return sum_of(word for file in files for word in words_of_file(file))


def fixed_group(checked: CheckedBook, info: BuildInfo) -> PageGroup:
    """The pages that no record has a say in."""

    def make() -> Iterator[Page]:
        yield from explanation_pages(info)
        yield from prove_pages(checked.book.defaults, info)
        yield from schema_pages(info)
        yield data_page(info)
        yield offline.not_saved_page(info)

    return PageGroup("rules, cards and schemas", (), make)


def page_groups(written: Written) -> Iterator[PageGroup]:
    """Yield the lists, the pages of makes and of parts, and the health of the book."""
    checked, jobs, info = written.checked, written.jobs, undated(written.info)
    told, parts = written.told, written.parts
    refs = repr(schema_refs(checked.book))
    packs = sum(bool(job.pack) for job in checked.jobs)
    yield PageGroup("lists", (told, parts, refs, str(packs)), partial(list_pages, checked, info))
    yield PageGroup("sections", (told,), lambda: section_pages(checked.summaries, info))
    plans = sum_of_rows(written.rows, "plans")
    yield PageGroup("makes", (told, written.entries), partial(_make_groups, written, info))
    listed = repr([(job.parts, job.used) for job in jobs])
    yield PageGroup("parts", (told, plans, parts, listed), partial(_part_groups, written, info))
    entries = repr([(job.entry, job.recalled) for job in jobs])
    yield PageGroup("jobs", (entries,), partial(job_lists, jobs, info))
    health, day = sum_of_rows(written.rows, "health"), written.info.as_of
    yield PageGroup("health", (health, day), partial(_health, written))


def _make_groups(written: Written, info: BuildInfo) -> Iterator[PageGroup]:
    makes: dict[str, list[tuple[CheckedVehicle, VehicleRow]]] = defaultdict(list)
    for one, row in written.vehicles:
        makes[row.make].append((one, row))
    for make, vehicles in sorted(makes.items()):
        told = sum_of(one.told_sum for one, _ in vehicles)
        entries = sum_of_rows((row for _, row in vehicles), "entry")
        yield PageGroup(f"make {make}", (told, entries), partial(_make_page, vehicles, info))


def _make_page(
    vehicles: Sequence[tuple[CheckedVehicle, VehicleRow]], info: BuildInfo
) -> list[Page]:
    summaries = [summary for one, _ in vehicles if (summary := one.summary) is not None]
    return make_pages(summaries, info, [row.entry for _, row in vehicles])


def _part_groups(written: Written, info: BuildInfo) -> Iterator[PageGroup]:
    plans = [plan for row in written.rows for plan in row.plans]
    for part in part_pages(written.checked, plans, jobs_by_part(written.jobs)):
        yield PageGroup(
            part.name, (written.parts, repr(part.used)), partial(_part_page, part, info)
        )


def _part_page(part: PartPage, info: BuildInfo) -> list[Page]:
    return [part.make(info)]


def _health(written: Written) -> list[Page]:
    healths = [row.health for row in written.rows]
    return [health_page(healths, written.info, written.checked.shelf.defaults)]


def file_groups(written: Written) -> Iterator[FileGroup]:
    """Yield the data that pages read, and what the site gives away beside its records' own."""
    checked, info, rows = written.checked, written.info, written.rows
    refs = repr(schema_refs(checked.book))
    yield FileGroup(
        "scripts",
        (written.entries, written.parts, refs),
        lambda: script_files(checked, [row.entry for row in rows]),
    )
    records = sum_of_rows(rows, "records"), repr([job.record for job in written.jobs])
    yield FileGroup("data", (*records, written.parts, info.as_of), partial(_data, written))


def _data(written: Written) -> Iterator[tuple[str, bytes]]:
    records = [record for row in written.rows for record in row.records]
    records += [job.record for job in written.jobs]
    return data_files(written.checked, records, written.info)

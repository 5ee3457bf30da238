"""`build`: the whole site from a checked book, swapped in whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from builder import __version__
from builder.data_files import templates_folder
from builder.findings import Finding
from builder.pipeline.answers.packs import cars_by_id
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.checked_vehicle import CheckedVehicle
from builder.pipeline.checking.own_fault import OwnFaultsError
from builder.pipeline.checking.photos import private_folders
from builder.pipeline.checking.workers import Progress
from builder.pipeline.site.borrowed_pages import borrowed_urls
from builder.pipeline.site.gone_records import OfBook
from builder.pipeline.site.job_pages import jobs_by_vehicle
from builder.pipeline.site.kept_job_pages import written_jobs
from builder.pipeline.site.kept_lists import KeptLists
from builder.pipeline.site.kept_pages import KeptPages
from builder.pipeline.site.kept_site import (
    StandsNoted,
    files_to_note,
    keep_note,
    kept_shell,
    note_site,
    noted_site,
    standing_site,
    stands_already,
    state_of_site,
)
from builder.pipeline.site.moved_pages import moved_pages
from builder.pipeline.site.private_pages import private_urls
from builder.pipeline.site.shared_pages import Written, file_groups, fixed_group, page_groups
from builder.pipeline.site.site_writer import PinTable, SiteWriter
from builder.pipeline.site.vehicle_pages import VehicleWork
from builder.pipeline.site.vehicle_row import VehicleRow
from builder.pipeline.site.written_jobs import JobWork, WrittenJob
from builder.rendering import offline
from builder.rendering.find_pages import PAGES_URL, find_pages_script
from builder.rendering.links import in_words
from builder.rendering.missing import missing_page
from builder.rendering.page import BuildInfo
from builder.rendering.pages.left_out import LeftOut, left_out_pages
from builder.rendering.patched_site import PatchedSite
from builder.rendering.shell import Shell, dated_files
from builder.rendering.writing import WrittenFile, fresh_site, make_folders
from builder.store import sum_of


@dataclass(frozen=True, slots=True)
class BuiltSite:
    """What a build made."""

    pages: int
    records: int


class BrokenLinksError(Exception):
    """A new site has links that must not be published. `args` are sentences, one a link."""


def build_site(
    checked: CheckedBook,
    output: Path,
    progress: Progress = lambda done, total: None,
) -> BuiltSite:
    """Write the site of a checked book to `output`; the old one stays if anything fails.

    Raises:
        OwnFaultsError: loombook could not deal with some records; the others were tried too.
        NoPlaceError: `output` is something that this tool did not make.
        AddressTakenError: two files would stand at one address.
        BrokenLinksError: a link of the new site leads nowhere.
        OSError: it cannot be written, for example because the disk is full.
    """
    info, kept = _info(checked), checked.kept
    noted = noted_site(kept, output)
    state = state_of_site(checked, info) if kept.is_on else ""
    if stands_already(kept, output, noted, state):
        return BuiltSite(noted.pages, checked.records)
    with fresh_site(output) as folder:
        writer = SiteWriter(folder, _shell(checked, info), standing_site(kept, output, noted))
        _write_site(writer, checked, info, (), progress)
        files = files_to_note(kept, folder, writer.files)
    note_site(kept, output, state, writer.pages, files)
    return BuiltSite(writer.pages, checked.records)


def patch_site(checked: CheckedBook, site: PatchedSite, left_out: Sequence[LeftOut]) -> BuiltSite:
    """Let a site that this process alone shows be that of a checked book, as `build_site` does.

    `left_out` are records that the book had and that do not stand: each address of theirs says so.

    Raises:
        The same, but for NoPlaceError; the site stays as it was but for an OSError.
    """
    info = _info(checked)
    if not site.is_known:
        noted = noted_site(checked.kept, site.folder)
        whole = site.take_up(noted.files)
        if whole and noted.state == _state_of_patched(checked, info, left_out):
            return BuiltSite(noted.pages, checked.records)
    with site.fresh() as folder:
        writer = SiteWriter(folder, _shell(checked, info), site)
        _write_site(writer, checked, info, left_out)
        site.put(writer.files, folder)
    return BuiltSite(writer.pages, checked.records)


def note_patched(
    checked: CheckedBook, site: PatchedSite, left_out: Sequence[LeftOut], pages: int
) -> None:
    """Note for the next process how the files of a patched site stand, if it may find them."""
    if checked.kept.is_on and site.is_to_note:
        state = _state_of_patched(checked, _info(checked), left_out)
        keep_note(checked.kept, site.folder, StandsNoted(state, pages, site.on_disk))
        checked.kept.write()
        site.is_noted_now()


def _state_of_patched(checked: CheckedBook, info: BuildInfo, left_out: Sequence[LeftOut]) -> str:
    """What differs whenever any byte of it may; "" is the state of no site that was noted."""
    if not checked.kept.is_on:
        return "unknown"
    return sum_of((state_of_site(checked, info), *map(repr, left_out)))


def _shell(checked: CheckedBook, info: BuildInfo) -> Shell:
    return kept_shell(checked.kept, info.site_name, _imprint(info), checked.book.defaults)


def _write_site(
    writer: SiteWriter,
    checked: CheckedBook,
    info: BuildInfo,
    left_out: Sequence[LeftOut],
    progress: Progress = lambda done, total: None,
) -> None:
    work = _work(writer, info, checked)
    vehicles = _write_vehicles(KeptPages(checked.kept, work), checked, progress)
    _write_the_rest(writer, Written(checked, vehicles, _write_jobs(writer, checked, work), info))
    writer.write_pages(left_out_pages(left_out, info))
    writer.write_files(moved_pages(checked.book.renamed, [file.url for file in writer.files]))
    _write_offline(writer, info)
    if broken := in_words(writer.broken_links()):
        raise BrokenLinksError(*broken)
    checked.kept.write()


def _info(checked: CheckedBook) -> BuildInfo:
    book = checked.book
    info = BuildInfo(
        book.site_name,
        __version__,
        checked.as_of,
        book.site_address,
        book.report_address,
        private_urls(checked),
        borrowed_urls(book),
    )
    return replace(info, data_licence=book.data_licence) if book.data_licence else info


def _imprint(info: BuildInfo) -> str:
    return f"loombook {info.tool_version}"


def _by_file(checked: CheckedBook) -> dict[str, list[Finding]]:
    """The findings by file, those in a visit's file under its vehicle's too."""
    by_file: dict[str, list[Finding]] = {}
    for finding in checked.findings:
        for shown in {finding.file, checked.vehicle_files.get(finding.file, finding.file)}:
            by_file.setdefault(shown, []).append(finding)
    return by_file


def _work(writer: SiteWriter, info: BuildInfo, checked: CheckedBook) -> VehicleWork:
    gate, jobs = checked.gate(pages=True), jobs_by_vehicle(checked)
    private = private_folders(checked.book)
    return VehicleWork(writer, info, checked.shelf, gate, _by_file(checked), jobs, private)


def _write_vehicles(
    pages: KeptPages, checked: CheckedBook, progress: Progress
) -> list[tuple[CheckedVehicle, VehicleRow]]:
    """Write every vehicle, and the table of pins row by row as they come in."""
    writer, remembers = pages.writer, checked.book.store.remembers
    usable = [one for one in checked.vehicles if one.told is not None and not one.file.is_template]
    make_folders(writer.folder, ("vehicles/", "plans/", "data/vehicles/", "data/visits/"))
    found, failed, photos = [], [], dict[str, WrittenFile]()
    with PinTable(writer.folder) as table:
        rows = pages.vehicles([one.file for one in usable], progress)
        for one, vehicle in zip(usable, rows, strict=True):
            if isinstance(vehicle, Finding):
                failed.append(vehicle)
                continue
            table.add(vehicle.pin_lines)
            writer.remember(vehicle.pages)
            writer.take_in(vehicle.data_files)
            photos.update((photo.url, photo) for photo in vehicle.photos)
            if not remembers:
                vehicle.forget()
            found.append((one, vehicle))
    if failed:
        raise OwnFaultsError(failed)
    writer.take_in([table.written, *photos.values()])
    return found


def _write_jobs(
    writer: SiteWriter, checked: CheckedBook, vehicles: VehicleWork
) -> list[WrittenJob]:
    """Write every job whose names lead somewhere; its vehicle is written."""
    cars, of_book = cars_by_id(checked.book), OfBook.of(checked.book, writer.links.names)
    checked = replace(checked, shelf=replace(checked.shelf, as_of=checked.book.as_of or None))
    work = JobWork(writer, vehicles.info, checked, vehicles.gate, cars, of_book)
    return written_jobs(checked.kept, work, [job.file for job in checked.jobs if job.pack != ""])


def _write_the_rest(writer: SiteWriter, written: Written) -> None:
    """Write lists, parts, rules, schemas, the handbook and data."""
    checked, info = written.checked, written.info
    lists = KeptLists(checked.kept, writer, info)
    pages = lists.pages([fixed_group(checked, info), *page_groups(written)])
    pages += [page for job in written.jobs for page in job.pages.found_by]
    writer.write_files([(PAGES_URL, find_pages_script(pages, writer.shell.files))])
    writer.write_files(dated_files(writer.shell.files, info.as_of))
    lists.files([*file_groups(written)])
    writer.write_files([offline.manifest(info)])
    writer.write_missing(missing_page(info), info.site_address)


def _write_offline(writer: SiteWriter, info: BuildInfo) -> None:
    """Write what must know every other file: the page about the offline set, its list, worker."""
    others = offline.offline_set(writer.files)
    page = offline.offline_page(others, info)
    trial = len(writer.shell.pour(page).encode())  # the page counts itself
    itself = WrittenFile(page.url, trial, "")
    page = offline.offline_page(others.with_shared(itself), info)
    (written,) = writer.write_pages([page]).pages.files
    worker = (templates_folder() / "worker" / "worker.js").read_text("utf-8")
    writer.write_files(offline.offline_files(others.with_shared(written), worker, info))

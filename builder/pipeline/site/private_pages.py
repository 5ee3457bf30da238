"""Which pages of a site hold what only this shop may see."""

from __future__ import annotations

from collections.abc import Iterator

from builder.book import FOLDER_OF
from builder.book.record_files import Name
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.privacy import records_of
from builder.planning.car.interface_fit import bus_plug
from builder.rendering.pages.comeback import comeback_url
from builder.rendering.pages.wording import plan_url
from builder.rendering.pages.work_pack import job_url


def private_urls(checked: CheckedBook) -> frozenset[str]:
    """Return the pages of private records, and of plans and packs made with one of them."""
    private = {file.name for file in checked.book.files() if file.is_private}
    return frozenset(_urls(checked, private)) if private else frozenset()


def _urls(checked: CheckedBook, private: set[Name]) -> Iterator[str]:
    yield from (f"{FOLDER_OF[kind]}/{record}.html" for kind, record in private)
    yield from (comeback_url(record) for kind, record in private if kind == "job")
    switched = _switched_from(checked, private)
    for vehicle in checked.summaries:
        for converter in checked.shelf.converters:
            named = {("vehicle", vehicle.id), ("converter", converter)}
            if private & named or vehicle.id in switched:
                yield plan_url(vehicle.id, converter)
    for entry in checked.jobs:
        job = entry.job
        if job is not None and (private & records_of(job) or job.vehicle in switched):
            yield from (job_url(job.id), comeback_url(job.id))


def _switched_from(checked: CheckedBook, private: set[Name]) -> set[str]:
    """The vehicles that a private interface fits: any plan of theirs may switch from it."""
    own = [each for each in checked.shelf.interfaces.values() if ("interface", each.id) in private]
    return {
        vehicle.id
        for vehicle in checked.summaries
        for interface in own
        if bus_plug(interface, ((pin.plug, pin.housing, pin.function) for pin in vehicle.pins))
    }

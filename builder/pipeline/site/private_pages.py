"""Which pages of a site hold what only this shop may see."""

from __future__ import annotations

from collections.abc import Iterator

from builder.book import FOLDERS
from builder.book.record_files import Name
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.privacy import records_of
from builder.rendering.pages.wording import plan_url
from builder.rendering.pages.work_pack import job_url

_FOLDER_OF = {kind: folder for folder, kind in FOLDERS.items()}


def private_urls(checked: CheckedBook) -> frozenset[str]:
    """Return the pages of private records, and of plans and packs made with one of them."""
    private = {file.name for file in checked.book.files() if file.is_private}
    return frozenset(_urls(checked, private)) if private else frozenset()


def _urls(checked: CheckedBook, private: set[Name]) -> Iterator[str]:
    yield from (f"{_FOLDER_OF[kind]}/{record}.html" for kind, record in private)
    for vehicle in checked.summaries:
        for converter in checked.shelf.converters:
            if private & {("vehicle", vehicle.id), ("converter", converter)}:
                yield plan_url(vehicle.id, converter)
    for entry in checked.jobs:
        if entry.job is not None and private & records_of(entry.job):
            yield job_url(entry.job.id)

"""The jobs of a site: those that nothing changed for keep their files, the rest are written.

A row is found and counts as that of a vehicle does. Beside what vehicles ask for, a job asks for
the cars that it names, and one that is begun for what of the book its pages may still lead to.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from builder.book import RecordFile
from builder.findings import Finding
from builder.pipeline.checking.asked import Note
from builder.pipeline.checking.kept import Kept, as_line
from builder.pipeline.checking.own_fault import OwnFaultsError
from builder.pipeline.checking.workers import map_files
from builder.pipeline.site.gone_records import OfBook
from builder.pipeline.site.page_sources import (
    Noted,
    add_sources,
    keep_each,
    noted,
    noted_gate,
    noted_info,
    state_of_pages,
)
from builder.pipeline.site.written_jobs import JobWork, WrittenJob, write_job
from builder.rendering.templates import warm
from builder.rendering.writing import make_folders
from builder.store import as_plain, reader_of

_CARS, _RECORDS, _NAMES = "cars of pages", "records of pages", "names on pages"
_EFFORT = 12
"""A job counts as so many vehicles when the work is parted: a guess."""
_FOLDERS = ("jobs/", "comebacks/", "data/jobs/")
_job = reader_of(WrittenJob)
_Written = WrittenJob | Finding | None


def written_jobs(kept: Kept, work: JobWork, files: Sequence[RecordFile]) -> list[WrittenJob]:
    """Write these jobs, or take them over, and return what they leave, in their order.

    Raises:
        OwnFaultsError: loombook could not draw some of them; the others were tried too.
    """
    make_folders(work.writer.folder, _FOLDERS if files else ())
    found = list(_KeptJobs(kept, work).written(files) if kept.is_on else _anew(work, files))
    if failed := [each for each in found if isinstance(each, Finding)]:
        raise OwnFaultsError(failed)
    written = [each for each in found if isinstance(each, WrittenJob)]
    for job in written:
        work.writer.remember(job.pages.pages)
        work.writer.take_in([job.data_file])
    return written


def _anew(work: JobWork, files: Sequence[RecordFile]) -> Iterator[_Written]:
    if files:
        warm()
    return map_files(partial(write_job, work), files, effort=_EFFORT)


def _lines_of(one: _Written) -> Sequence[bytes]:
    return (as_line(as_plain(one)),)


class _KeptJobs:
    """What is known of the jobs of a book from before."""

    def __init__(self, kept: Kept, work: JobWork) -> None:
        self._kept, self._work, sources = kept, work, kept.sources
        self._state = state_of_pages(work.info, work.writer.shell)
        add_sources(sources, work.info, work.gate)
        sources.add(_CARS, {name: kept.sum_of_file(car) for name, car in work.cars.items()})
        sources.add(_RECORDS, work.of_book.records)
        sources.add(_NAMES, work.of_book.names)

    def written(self, files: Sequence[RecordFile]) -> Iterator[_Written]:
        """Yield what is written of these jobs, in their order."""
        keys = {file: self._key(file) for file in files}
        rows = self._kept.find([*keys.values()])
        known = {file: self._taken_over(rows[key]) for file, key in keys.items() if key in rows}
        new = [file for file in files if known.get(file) is None]
        anew = iter(self._anew(new, [keys[file] for file in new]))
        for file in files:
            yield known.get(file) or next(anew)
        self._kept.write()

    def _key(self, file: RecordFile) -> str:
        everywhere = repr(self._work.gate.everywhere)
        return self._kept.key(
            "pages of a job", self._state, everywhere, self._kept.sum_of_file(file)
        )

    def _taken_over(self, lines: Sequence[bytes]) -> WrittenJob | None:
        """What was written of a job, if all its files could be taken over."""
        one: WrittenJob = _job(json.loads(lines[0]))
        writer = self._work.writer
        return one if writer.standing.take(one.files, writer.folder) else None

    def _anew(self, files: Sequence[RecordFile], keys: Sequence[str]) -> Iterator[_Written]:
        if files:
            warm()
        yield from keep_each(self._kept, keys, map_files(self._noted, files, effort=_EFFORT))

    def _noted(self, file: RecordFile) -> Noted[_Written]:
        return noted(self._kept, lambda note: write_job(self._noting(note), file), _lines_of)

    def _noting(self, note: Note) -> JobWork:
        """The same with everything that is not in a key in mappings that tell what is asked."""
        work, kept, sources = self._work, self._kept, self._kept.sources
        checked = replace(work.checked, shelf=kept.noted_shelves(note).book)
        names = sources.noted(_NAMES, note)
        return JobWork(
            work.writer,
            noted_info(work.info, kept, note),
            checked,
            noted_gate(work.gate, kept, note),
            sources.noted(_CARS, note, work.cars),
            OfBook(sources.noted(_RECORDS, note), names),
        )

"""The vehicles of a site: those that nothing changed for keep their files, the rest are written.

A row of the store says what was written of a vehicle, with the sum of each file; what was asked for
that is noted by the asking itself, as it is while a vehicle is checked. A row counts while all of
it is answered the same, and all its files stand in the site as they were written.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from builder.book import RecordFile
from builder.findings import Finding
from builder.pipeline.checking.asked import Note
from builder.pipeline.checking.kept import Kept
from builder.pipeline.checking.workers import WORTH_FORKING, Progress, map_files
from builder.pipeline.site.page_sources import (
    Noted,
    add_sources,
    keep_each,
    noted,
    noted_gate,
    noted_info,
    state_of_pages,
)
from builder.pipeline.site.photo_files import take_over_photos
from builder.pipeline.site.site_writer import ListedPages
from builder.pipeline.site.vehicle_pages import VehicleWork, write_vehicle
from builder.pipeline.site.vehicle_row import VehicleRow
from builder.rendering.templates import warm
from builder.store import reader_of

_AT_ONCE = 1000
"""So many vehicles are looked up and written before any is handed on: memory does not grow."""


_listed = reader_of(ListedPages)


class KeptPages:
    """What is known of the pages of a book from before."""

    def __init__(self, kept: Kept, work: VehicleWork) -> None:
        self._kept, self._work, self.writer = kept, work, work.writer
        if kept.is_on:
            self._state = state_of_pages(work.info, work.writer.shell)
            add_sources(kept.sources, work.info, work.gate)

    def vehicles(
        self, files: Sequence[RecordFile], progress: Progress
    ) -> Iterator[VehicleRow | Finding]:
        """Yield what is written of these vehicles, in their order."""
        for start in range(0, len(files), _AT_ONCE):
            some = files[start : start + _AT_ONCE]
            known = self._known(some) if self._kept.is_on else {}
            new = [file for file in some if file.path not in known]
            done = start + len(some) - len(new)
            written = iter(self._write(new, _from(progress, done, len(files))))
            for file in some:
                yield known.get(file.path) or next(written)
            self._kept.write()

    def _write(
        self, files: Sequence[RecordFile], progress: Progress
    ) -> Iterator[VehicleRow | Finding]:
        if len(files) >= WORTH_FORKING:
            warm()
        if not self._kept.is_on:
            yield from map_files(partial(_written_row, self._work), files, progress)
            return
        found = map_files(self._noted, files, progress)
        yield from keep_each(self._kept, [self._key(file) for file in files], found)

    def _noted(self, file: RecordFile) -> Noted[VehicleRow | Finding]:
        work, kept = self._work, self._kept
        return noted(kept, lambda note: _written_row(_noting(work, kept, note), file), _lines_of)

    def _known(self, files: Sequence[RecordFile]) -> dict[Any, VehicleRow]:
        """By path, the vehicles of which everything is and stands as it was."""
        keys = {file.path: self._key(file) for file in files}
        rows = self._kept.recall(f"pages from {files[0].path}", [*keys.values()], VehicleRow)
        there = {path: rows[key] for path, key in keys.items() if key in rows}
        return {path: row for path, row in there.items() if self._is_there(row)}

    def _is_there(self, one: VehicleRow) -> bool:
        """Whether all files of a vehicle could be taken over."""
        photos_there = take_over_photos(self.writer, one.photos)
        return photos_there and self.writer.standing.take(one.files, self.writer.folder)

    def _key(self, file: RecordFile) -> str:
        work = self._work
        found = repr(work.findings.get(file.shown))
        jobs = repr(work.jobs.get(file.path.stem))
        return self._kept.key("pages", self._state, self._kept.sum_of_file(file), found, jobs)


def _written_row(work: VehicleWork, file: RecordFile) -> VehicleRow | Finding:
    """Write a vehicle, and return a line for each thing that is left of it."""
    written = write_vehicle(work, file)
    return written if isinstance(written, Finding) else VehicleRow.of(written)


def _lines_of(one: VehicleRow | Finding) -> Sequence[bytes]:
    return one.lines if isinstance(one, VehicleRow) else ()


def _noting(work: VehicleWork, kept: Kept, note: Note) -> VehicleWork:
    """The same with everything that is not in a key in mappings that tell what is asked of them."""
    gate, info = noted_gate(work.gate, kept, note), noted_info(work.info, kept, note)
    shelf = replace(kept.noted_shelves(note).book, as_of=None)
    return replace(work, gate=gate, info=info, shelf=shelf)


def _from(progress: Progress, done: int, total: int) -> Progress:
    return lambda more, _: progress(done + more, total)

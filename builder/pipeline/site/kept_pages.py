"""The vehicles of a site: those that nothing changed for keep their files, the rest are written.

A row of the store says what was written of a vehicle, with the sum of each file; what was asked for
that is noted by the asking itself, as it is while a vehicle is checked. A row counts while all of
it is answered the same, and all its files stand in the site as they were written.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from builder.book import RecordFile
from builder.findings import Finding
from builder.pipeline.checking.asked import Note
from builder.pipeline.checking.kept import Kept, as_line, words_of_file
from builder.pipeline.checking.workers import WORTH_FORKING, Progress, map_files
from builder.pipeline.site.page_sources import (
    Noted,
    add_sources,
    keep_each,
    noted,
    noted_gate,
    noted_info,
    state_of_pages,
    undated,
)
from builder.pipeline.site.photo_files import take_over_photos
from builder.pipeline.site.site_writer import ListedPages
from builder.pipeline.site.vehicle_pages import VehicleWork, WrittenVehicle, write_vehicle
from builder.rendering.page import BuildInfo, Page
from builder.rendering.templates import warm
from builder.store import as_plain, reader_of

_AT_ONCE = 1000
"""So many vehicles are looked up and written before any is handed on: memory does not grow."""


_vehicle, _listed = reader_of(WrittenVehicle), reader_of(ListedPages)


class KeptPages:
    """What is known of the pages of a book from before."""

    def __init__(self, kept: Kept, work: VehicleWork) -> None:
        self._kept, self._work, self.writer = kept, work, work.writer
        if kept.is_on:
            self._state = state_of_pages(work.info, work.writer.shell)
            add_sources(kept.sources, work.info, work.gate)

    def vehicles(
        self, files: Sequence[RecordFile], progress: Progress
    ) -> Iterator[WrittenVehicle | Finding]:
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

    def fixed(self, name: str, make: Callable[[BuildInfo], Iterable[Page]]) -> list[Page]:
        """Write pages that rest on nothing but the tool and the settings of the book.

        Those that are there already are given without their bodies.
        """
        key = self._kept.key(name, self._state) if self._kept.is_on else ""
        rows = self._kept.find([key]) if key else {}
        found: ListedPages | None = _listed(json.loads(rows[key][0])) if key in rows else None
        if found is not None and self.writer.take_over(found.pages):
            return found.found_by
        info = undated(self._work.info)
        written = self.writer.write_pages(map(info.marked, make(info)))
        if key:
            self._kept.keep(key, {}, as_line(as_plain(written)))
        return written.found_by

    def _write(
        self, files: Sequence[RecordFile], progress: Progress
    ) -> Iterator[WrittenVehicle | Finding]:
        if len(files) >= WORTH_FORKING:
            warm()
        if not self._kept.is_on:
            yield from map_files(partial(write_vehicle, self._work), files, progress)
            return
        found = map_files(self._noted, files, progress)
        yield from keep_each(self._kept, [self._key(file) for file in files], found)

    def _noted(self, file: RecordFile) -> Noted[WrittenVehicle | Finding]:
        work, kept = self._work, self._kept
        return noted(kept, lambda note: write_vehicle(_noting(work, kept, note), file))

    def _known(self, files: Sequence[RecordFile]) -> dict[Any, WrittenVehicle]:
        """By path, the vehicles of which everything is and stands as it was."""
        keys = {file.path: self._key(file) for file in files}
        rows = self._kept.find([*keys.values()])
        found = {}
        for path, key in keys.items():
            if key in rows:
                one: WrittenVehicle = _vehicle(json.loads(rows[key][0]))
                if self._is_there(one):
                    found[path] = one
        return found

    def _is_there(self, one: WrittenVehicle) -> bool:
        """Whether all files of a vehicle could be taken over."""
        photos_there = take_over_photos(self.writer, one.photos)
        return photos_there and self.writer.standing.take(one.files, self.writer.folder)

    def _key(self, file: RecordFile) -> str:
        work = self._work
        found = repr(work.findings.get(file.shown))
        jobs = repr(work.jobs.get(file.path.stem))
        return self._kept.key("pages", self._state, *words_of_file(file), found, jobs)


def _noting(work: VehicleWork, kept: Kept, note: Note) -> VehicleWork:
    """The same with everything that is not in a key in mappings that tell what is asked of them."""
    gate, info = noted_gate(work.gate, kept, note), noted_info(work.info, kept, note)
    shelf = replace(kept.noted_shelves(note).book, as_of=None)
    return replace(work, gate=gate, info=info, shelf=shelf)


def _from(progress: Progress, done: int, total: int) -> Progress:
    return lambda more, _: progress(done + more, total)

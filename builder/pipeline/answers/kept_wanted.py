"""`next` of a whole book: vehicles that nothing changed for from the store, the rest anew.

What a vehicle wants read is kept under its own bytes and those of its jobs. In which order the
vehicles stand is kept under the digest of the book: where that is known, only those that come
first are looked at.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from builder.book import Book, RecordFile
from builder.model.book import Shelf
from builder.pipeline.answers.measure_next import wanted_of
from builder.pipeline.answers.visit_changes import standing_with
from builder.pipeline.checking.asked import Answers, Ask
from builder.pipeline.checking.book_check import CheckedBook, check_book
from builder.pipeline.checking.gate import Gate
from builder.pipeline.checking.jobs import CheckedJob
from builder.pipeline.checking.kept import Kept, as_line, words_of_file
from builder.pipeline.checking.shelf import Shelves
from builder.pipeline.checking.workers import map_files
from builder.planning.job.wanted_pins import WantedPin
from builder.store import as_plain, reader_of

_GATE = "gate of wanted pins"
_pins = reader_of(tuple[WantedPin, ...])
_Found = dict[RecordFile, Sequence[WantedPin]]


def measure_next(book: Book, make: str, most: int) -> list[WantedPin]:
    """Return the pins of a book worth measuring, best first and so many at most.

    `make` keeps those of one maker, "" those of all.
    """
    files = [file for file in book.files() if file.kind == "vehicle" and not file.is_template]
    first = known_numbers(book, "wanted first", make.casefold())
    if first is None:
        found = _of_maker(book, files, make)
    else:
        some = [files[number] for number in first[:most]]
        about = [file.path for file in some]
        found = _wanted(check_book(book, jobs=(), about=about), some) if some else {}
    return sorted((pin for pins in found.values() for pin in pins), key=lambda pin: pin.rank)[:most]


def known_numbers(book: Book, *words: str) -> list[int] | None:
    """Return the numbers of files that were kept of a book as it is; None where none were."""
    kept = _kept_of(book)
    if not kept.is_on:
        return None
    key = kept.key(*words, book.digest)
    lines = kept.find([key]).get(key)
    return json.loads(lines[0]) if lines else None


def keep_numbers(book: Book, numbers: Sequence[int], *words: str) -> None:
    """Keep numbers of files under the digest of the book that they are of."""
    kept = _kept_of(book)
    if kept.is_on:
        kept.keep(kept.key(*words, book.digest), {}, as_line(numbers))
        kept.write()


def _kept_of(book: Book) -> Kept:
    """The rows of a book that rest on its digest alone, and ask for nothing."""
    return Kept(book, Shelves(Shelf(), Shelf()))


def _of_maker(book: Book, files: Sequence[RecordFile], make: str) -> _Found:
    """What each vehicle of a maker wants read; the order in which they stand is kept."""
    checked = check_book(book, jobs=())
    ids = {one.id for one in checked.summaries if make.casefold() in ("", one.make.casefold())}
    found = _wanted(checked, [file for file in files if file.stem in ids])
    best = {file: pins[0].rank for file, pins in found.items() if pins}
    at = {file: number for number, file in enumerate(files)}
    in_order = [at[file] for file in sorted(best, key=lambda file: best[file])]
    keep_numbers(book, in_order, "wanted first", make.casefold())
    return found


def _wanted(checked: CheckedBook, files: Sequence[RecordFile]) -> _Found:
    """What these vehicles want read, best first; of a book that is checked."""
    asking, kept = _Asking(checked), checked.kept
    if not kept.is_on:
        return dict(zip(files, map_files(asking.anew, files), strict=True))
    keys = {file: asking.key(file) for file in files}
    rows = kept.find([*keys.values()])
    found: _Found = {f: _pins(json.loads(rows[k][0])) for f, k in keys.items() if k in rows}
    new = [file for file in files if file not in found]
    for file, (pins, answers) in zip(new, map_files(asking.noted, new), strict=True):
        kept.keep(keys[file], answers, as_line(as_plain(pins)))
        found[file] = pins
    kept.write()
    return found


class _Asking:
    """A checked book, of which each vehicle is asked with the jobs that name it."""

    def __init__(self, checked: CheckedBook) -> None:
        self._checked, self._kept, self._gate = checked, checked.kept, checked.gate()
        self._jobs = _by_vehicle(checked.jobs)
        self._kept.sources.add(_GATE, self._gate.on)

    def key(self, file: RecordFile) -> str:
        """The key of what a vehicle wants read."""
        jobs = (word for job in self._of(file) for word in words_of_file(job.file))
        everywhere = repr(self._gate.everywhere)
        return self._kept.key("wanted", everywhere, *words_of_file(file), *jobs)

    def noted(self, file: RecordFile) -> tuple[tuple[WantedPin, ...], Answers]:
        """What a vehicle wants read, and what was asked for that."""
        asks: list[Ask] = []
        shelf = self._kept.noted_shelves(asks.append).book
        gate = replace(self._gate, on=self._kept.sources.noted(_GATE, asks.append))
        pins = self._made(replace(self._checked, shelf=shelf), gate, file)
        return pins, self._kept.sources.answered(asks)

    def anew(self, file: RecordFile) -> tuple[WantedPin, ...]:
        """What a vehicle wants read."""
        return self._made(self._checked, self._gate, file)

    def _made(self, checked: CheckedBook, gate: Gate, file: RecordFile) -> tuple[WantedPin, ...]:
        return tuple(_of_file(checked, gate, self._of(file), file))

    def _of(self, file: RecordFile) -> Sequence[CheckedJob]:
        return self._jobs.get(file.stem, ())


def _by_vehicle(jobs: Sequence[CheckedJob]) -> Mapping[str, Sequence[CheckedJob]]:
    found: defaultdict[str, list[CheckedJob]] = defaultdict(list)
    for job in jobs:
        if job.job is not None:
            found[job.job.vehicle].append(job)
    return found


def _of_file(
    checked: CheckedBook, gate: Gate, jobs: Sequence[CheckedJob], file: RecordFile
) -> Iterator[WantedPin]:
    standing = standing_with(checked, file, jobs, gate)
    plans = [*standing.plans.values(), *(made.pack.plan for made in standing.packs.values())]
    yield from wanted_of(standing.vehicle, standing.proofs, plans, checked.shelf.defaults)

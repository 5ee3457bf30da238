"""The finder's entries of a book: those that nothing changed for from the store, the rest anew."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from builder.book import Book, RecordFile
from builder.finder.entries import Entry, entry
from builder.findings import DataPath
from builder.model.book import Shelf
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.pipeline.answers.book_parts import part_records
from builder.pipeline.checking.asked import Answers, Ask
from builder.pipeline.checking.kept import Kept, as_line, words_of_file
from builder.pipeline.checking.records import as_counted, read_record
from builder.pipeline.checking.shelf import Shelves, counting_shelf
from builder.pipeline.checking.workers import map_files
from builder.planning.feeds.serving import serves
from builder.proof.pin_proof import PinProof, prove
from builder.store import as_plain, reader_of

_entry = reader_of(Entry)


def finder_entries(book: Book) -> list[Entry]:
    """Return the finder's entry of every vehicle of a book, by id, with the converters that it has
    a plan with.

    They are kept together under the digest of the book, and each for itself under its own.
    """
    shelf = _shelf(book)
    kept = Kept(book, Shelves(shelf, shelf))
    if not kept.is_on:
        return _sorted(_made(book, shelf, kept))
    key = kept.key("entries", book.digest)
    if lines := kept.find([key]).get(key):
        return [_entry(plain) for plain in json.loads(lines[0])]
    entries = _sorted(_made(book, shelf, kept))
    kept.keep(key, {}, as_line([as_plain(each) for each in entries]))
    kept.write()
    return entries


def finder_entry(
    vehicle: Vehicle,
    proofs: dict[DataPath, PinProof],
    private: bool = False,
    plans: Sequence[str] = (),
) -> Entry:
    """Return the finder's entry of a vehicle; `private` when only this shop may see its record,
    `plans` are the ids of the converters that it has a plan with.
    """
    made = entry(vehicle, lambda pin: proofs[pin.path].band, private)
    return made._replace(plans=tuple(plans))


def _sorted(entries: Iterator[Entry | None]) -> list[Entry]:
    return sorted(filter(None, entries), key=lambda each: each.id)


def _shelf(book: Book) -> Shelf:
    """What entries are made with: shells, contributors and converters, and nothing else."""
    found = part_records(book)
    converters = {one.id: one for _, one in found if isinstance(one, Converter)}
    return replace(counting_shelf(book), converters=converters, defaults=book.defaults)


def _made(book: Book, shelf: Shelf, kept: Kept) -> Iterator[Entry | None]:
    files = [file for file in book.files() if file.kind == "vehicle" and not file.is_template]
    if not kept.is_on:
        yield from map_files(partial(_entry_of, shelf), files)
        return
    keys = {file.path: kept.key("entry", *words_of_file(file)) for file in files}
    rows = kept.find([*keys.values()])
    new = [file for file in files if keys[file.path] not in rows]
    for file, (one, answers) in zip(new, map_files(partial(_noted, kept), new), strict=True):
        if one is not None:
            kept.keep(keys[file.path], answers, as_line(as_plain(one)))
        yield one
    yield from (_entry(json.loads(lines[0])) for lines in rows.values())


def _noted(kept: Kept, file: RecordFile) -> tuple[Entry | None, Answers]:
    """A vehicle's entry, and what was asked for it."""
    asks: list[Ask] = []
    one = _entry_of(kept.noted_shelves(asks.append).book, file)
    return one, kept.sources.answered(asks)


def _entry_of(shelf: Shelf, file: RecordFile) -> Entry | None:
    """A vehicle's entry; None for one that loombook cannot deal with, which the check names."""
    read = as_counted(read_record(file), shelf)
    if not isinstance(read.record, Vehicle):
        return None
    vehicle, defaults = read.record, shelf.defaults
    try:
        plans = [one.id for one in shelf.converters.values() if serves(vehicle, one, defaults)[0]]
        return finder_entry(vehicle, prove(vehicle, defaults), file.is_private, plans)
    except Exception:
        return None

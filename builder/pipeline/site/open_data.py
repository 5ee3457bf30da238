"""What the site gives away: a JSON file a record, their index, one table of all pins, schemas."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from builder.data_files import schema_folder
from builder.model.kinds import PARTS
from builder.model.visit import Visit
from builder.model.words import Origin, RecordKind
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.records import ReadRecord, read_record
from builder.pipeline.site.reference_pages import schemas
from builder.rendering.page import BuildInfo, Page
from builder.rendering.pages.open_data import open_data_page
from builder.rendering.pins_csv import METADATA_URL, metadata
from builder.rendering.record_json import NOTICES, record_json

_LINES_IN_MIND = 65536
"""Records whose lines are not made again; with more than that, every line is."""


class DataRecord(NamedTuple):
    """A record with a data file, as the index names it. `hash` is the SHA-256 of its file."""

    id: str
    kind: RecordKind
    title: str
    hash: str
    data: Origin
    page: str = ""  # where it is told of, when it has no page of its own

    def as_data(self) -> dict[str, str]:
        """The record's entry in the index; addresses count from the index."""
        return {
            "id": self.id,
            "kind": self.kind,
            "title": self.title,
            "hash": self.hash,
            "url": f"{self.kind}s/{self.id}.json",
            "page": f"../{self.page or f'{self.kind}s/{self.id}.html'}",
            "data": self.data,
        }


def data_record(read: ReadRecord) -> DataRecord:
    """Return what the index says of one usable record."""
    record = read.record
    title = getattr(record, "title", "") or getattr(record, "name", "") or read.file.path.stem
    page = f"vehicles/{record.vehicle}.html" if isinstance(record, Visit) else ""
    name, origin = read.file.path.stem, read.data["data"]
    return DataRecord(name, read.file.kind, title, read.digest, origin, page)


def part_files(
    checked: CheckedBook, info: BuildInfo
) -> Iterator[tuple[DataRecord, tuple[str, bytes]]]:
    """Yield the entry and the JSON file of every part."""
    for file in checked.book.files():
        if file.kind in PARTS and not file.is_template:
            read = read_record(file)
            url, text = data_text(read, info)
            yield data_record(read), (url, text.encode())


def data_text(read: ReadRecord, info: BuildInfo) -> tuple[str, str]:
    """Return address and JSON of a record of which nothing is computed: a part, or a visit."""
    file = read.file
    text = record_json(file.kind, read.data, {}, info, read.digest)
    return f"data/{file.kind}s/{file.path.stem}.json", text


def data_files(
    checked: CheckedBook,
    written: Sequence[DataRecord],
    info: BuildInfo,
) -> Iterator[tuple[str, bytes]]:
    """Yield every data file but those of vehicles, visits, jobs and pins, which are there already.

    `written` are the records of those.
    """
    parts = list(part_files(checked, info))
    yield from (file for _, file in parts)
    for file in sorted(schema_folder().glob("*.schema.json")):
        yield f"data/schema/{file.name}", file.read_bytes()
    records = [*written, *(record for record, _ in parts)]
    yield "data/records.json", _index_json(records, info)
    yield METADATA_URL, _json(metadata(info.data_licence, info.as_of))


def data_page(info: BuildInfo) -> Page:
    """Return the page that says what there is and what every key and column means."""
    return open_data_page(schemas(), info)


def _index_json(records: Sequence[DataRecord], info: BuildInfo) -> bytes:
    """The index, with a line for each record: of ten thousand cars it is read line by line."""
    about = json.dumps(_about(records, info), ensure_ascii=False)
    ordered = sorted(records, key=lambda record: (record.kind, record.id))
    lines = ",\n".join(map(_line, ordered))
    return f'{{"about": {about},\n"records": [\n{lines}\n]}}\n'.encode()


@lru_cache(_LINES_IN_MIND)
def _line(record: DataRecord) -> str:
    return json.dumps(record.as_data(), ensure_ascii=False)


def _about(records: Sequence[DataRecord], info: BuildInfo) -> dict[str, Any]:
    return {
        "notice": _notice(records),
        "licence": info.data_licence,
        "tool": f"loombook {info.tool_version}",
        "as_of": info.as_of,
        "pins_csv": "pins.csv",
        "schemas": [f"schema/{name}.schema.json" for name in schemas()],
    }


def _notice(records: Sequence[DataRecord]) -> str:
    invented = sum(record.data == "invented" for record in records)
    said = f"{invented} of {len(records)} records are invented; each says so in `data`. "
    return said + NOTICES["invented" if invented == len(records) else "measured"]


def _json(document: dict[str, Any]) -> bytes:
    return (json.dumps(document, indent=1, ensure_ascii=False) + "\n").encode()

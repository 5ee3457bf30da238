"""What came out of one record file: data, places, findings, the typed record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple

from builder.book import RecordFile
from builder.findings import DataPath, Fault, Finding, Fix, Severity
from builder.parsing import Record
from builder.source_map import SourceMap


class Elsewhere(NamedTuple):
    """A part of a record that stands in another file, and its path there."""

    read: ReadRecord
    own: DataPath


@dataclass(frozen=True, slots=True)
class ReadRecord:
    """What came out of one file. `record` is None when the file cannot be used.

    `data` is the file as typed, but for old names, in whose places the new ones stand, and for what
    it says in short, which is written out. `elsewhere` says by data path what of a vehicle came
    from the files of its visits.
    """

    file: RecordFile
    record: Record | None
    data: dict[str, Any]
    source_map: SourceMap
    findings: list[Finding]
    digest: str
    elsewhere: Mapping[DataPath, Elsewhere] = field(default_factory=dict)

    def locate(self, fault: Fault, rule_id: str, slug: str, severity: Severity) -> Finding:
        """Return the finding for a fault of this record, with its place in the file it is in.

        Its path stays that of the record; the path of its fix is that of the file.
        """
        file, source_map, path, fix = self._place(fault)
        line, column = source_map.value_position(path)
        weight = fault.severity if fault.severity is not None else severity
        return Finding(
            file.shown,
            line,
            column,
            weight,
            rule_id,
            slug,
            fault.message,
            fault.help,
            fault.path,
            fix=fix,
            drawing=fault.drawing,
            also=fault.also,
        )

    def _place(self, fault: Fault) -> tuple[RecordFile, SourceMap, DataPath, Fix | None]:
        path, fix = fault.path, fault.fix
        for length in range(len(path), 0, -1) if self.elsewhere else ():
            if (there := self.elsewhere.get(path[:length])) is not None:
                own = (*there.own, *path[length:])
                if fix is not None:
                    moved = (*there.own, *fix.path[length:])
                    fix = replace(fix, path=moved) if fix.path[:length] == path[:length] else None
                return there.read.file, there.read.source_map, own, fix
        return self.file, self.source_map, path, fix

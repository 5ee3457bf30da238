"""What a loaded file says as a record of a kind: written out, and what is wrong with its shape."""

from __future__ import annotations

from typing import Any, NamedTuple

from builder.editing.short_forms import Short, written_out
from builder.findings import Finding
from builder.loading import Loaded
from builder.model.words import RecordKind
from builder.schema_check import CATALOGUE, check_shape
from builder.source_map import SourceMap

_ENTRIES = {entry.id: entry for entry in CATALOGUE}


class Shape(NamedTuple):
    """The data with all that it says in short written out, None where the file is refused."""

    data: dict[str, Any] | None
    findings: list[Finding]

    @property
    def fails(self) -> bool:
        """Whether no record can be made of it."""
        return self.data is None or any(finding.fails_check for finding in self.findings)


def shape_of(kind: RecordKind, loaded: Loaded, shown: str) -> Shape:
    """Return what a file says as a record of this kind, and what loading and schema find."""
    if loaded.data is None:
        return Shape(None, list(loaded.findings))
    data, shorts = written_out(kind, loaded.data)
    found = [_finding(short, loaded.source_map, shown) for short in shorts]
    found += check_shape(kind, data, loaded.source_map, shown)
    return Shape(data, sorted(found, key=Finding.sort_key))


def _finding(short: Short, source_map: SourceMap, shown: str) -> Finding:
    entry, fault = _ENTRIES[short.rule_id], short.fault
    place = source_map.key_position(fault.path)
    said = (entry.severity, entry.id, entry.slug, fault.message, fault.help, fault.path)
    return Finding(shown, place.line, place.column, *said, fix=fault.fix)


def by_hand(findings: list[Finding], is_template: bool) -> list[Finding]:
    """Return the findings of a file; an example may say things in short, and stays so."""
    if not is_template:
        return findings
    return [one for one in findings if one.fails_check or one.rule_id not in _ENTRIES]

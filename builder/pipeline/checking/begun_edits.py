"""What somebody typed into a job after it was begun: the plan stands, so it changes nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, NamedTuple

from builder.editing.spelling import flow_text
from builder.findings import CatalogueEntry, DataPath, Fault, Finding, Severity
from builder.pipeline.checking.frozen import Frozen
from builder.pipeline.checking.records import ReadRecord, read_record

EDITED_AFTER_BEGUN = CatalogueEntry(
    id="BOK117",
    slug="edited-after-begun",
    title="A begun job whose record says something else since",
    severity=Severity.WARN,
    what="A key of a begun job that a plan is made from, and that was changed, added or taken out "
    "after the job was begun. Results, notes, ticks, acceptances and what was heard later are no "
    "such keys.",
    why="The plan of a begun job stands: it is made from the records of that day, kept beside the "
    "job. Whoever reads the record believes what it says now, and the sheets, the joints and the "
    "way back go on saying what was true then.",
    example="supply: {supply_lead_m: 29.2}   # 5.2 when the job was begun",
    fix="Type back what stood there. What was really joined otherwise is typed into "
    "`begun: as_built`: the way back follows that. A job that is to be planned anew is a new job.",
)

_AFTERWARDS = frozenset({"begun", "results", "notes", "ticked", "follow_up", "accept", "edited"})
"""Keys of a job that are meant to be written while it is done and later."""
_NO_PLAN = frozenset({"schema", "id", "title"})
"""Keys that no plan is made from."""
_MOST_TOLD = 60
"""A longer value is told by what it is a value of. [characters]"""


class _Edit(NamedTuple):
    """One place that says something else: the value then and now, None for nothing."""

    path: DataPath
    was: Any
    now: Any


def edits_since(read: ReadRecord, frozen: Frozen) -> Iterator[Finding]:
    """Yield each key of a job that says something else than when the job was begun."""
    then = _job_then(read, frozen)
    for key in dict.fromkeys((*then, *read.data)):
        if key not in _AFTERWARDS | _NO_PLAN:
            edits = list(_edits((key,), then.get(key), read.data.get(key)))
            if edits:
                yield _finding(read, edits)


def _job_then(read: ReadRecord, frozen: Frozen) -> dict[str, Any]:
    """The job as it was begun, records by the names that they have today."""
    (file,) = (each for each in frozen.files if each.kind == "job")
    return read_record(replace(file, renamed=read.file.renamed)).data


def _edits(path: DataPath, was: Any, now: Any) -> Iterator[_Edit]:
    """Each innermost place at which two values differ; a list of another length is one place."""
    if isinstance(was, dict) and isinstance(now, dict):
        for key in dict.fromkeys((*was, *now)):
            yield from _edits((*path, key), was.get(key), now.get(key))
    elif isinstance(was, list) and isinstance(now, list) and len(was) == len(now):
        for at, (before, after) in enumerate(zip(was, now, strict=True)):
            yield from _edits((*path, at), before, after)
    elif was != now:
        yield _Edit(path, was, now)


def _finding(read: ReadRecord, edits: list[_Edit]) -> Finding:
    entry, (first, *others) = EDITED_AFTER_BEGUN, edits
    name = ".".join(map(str, first.path))
    more = f"; and {len(others)} more of {first.path[0]}" if others else ""
    fault = Fault(_there(first), f"{name} {_differs(first)}{more}", _to_type(first))
    return read.locate(fault, entry.id, entry.slug, entry.severity)


def _there(edit: _Edit) -> DataPath:
    """The place of it, or of what it was taken out of; of a whole key the line that says begun."""
    if edit.now is not None:
        return edit.path
    return edit.path[:-1] or ("begun",)


def _differs(edit: _Edit) -> str:
    then = f"the job was begun with {_shown(edit.was)}"
    if edit.now is None:
        return f"is not there any more; {then}"
    if edit.was is None:
        return f"is {_shown(edit.now)} now; the job was begun without it"
    return f"is {_shown(edit.now)} now; {then}"


def _shown(value: Any) -> str:
    text = flow_text(value)
    return text if len(text) <= _MOST_TOLD else f"{text[:_MOST_TOLD]} …"


def _to_type(edit: _Edit) -> str:
    """What to type: what stood there, or nothing."""
    key = edit.path[-1] if isinstance(edit.path[-1], str) else ""
    again = f"{key}: {flow_text(edit.was)}" if key else flow_text(edit.was)
    told = "take it out again" if edit.was is None else f"type {again} again"
    return f"{told}; what was joined otherwise is typed into begun: as_built"

"""What a record says in short: entries that are one line of text, and keys that are left out.

Both are read, with a note, and `mend` writes them out. A key that is left out is read as unknown
where its declaration takes no answer for unknown, never for there is none.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from builder.declaring import Field, fields_of
from builder.editing.short_lines import items_of, lines_of
from builder.editing.spelling import flow_text
from builder.findings import DataPath, Fault, Fix, value_at
from builder.model.vehicle import Vehicle
from builder.model.words import UNKNOWN, SchemaKind
from builder.schema_check.key_wording import name_of
from builder.schema_check.yaml_words import listed, quoted
from builder.speller import nearest

LEFT_OUT = "SCH118"


class Short(NamedTuple):
    """One thing that is said in short, or tried to: the id of the finding, and the fault."""

    rule_id: str
    fault: Fault


def written_out(kind: SchemaKind, data: dict[str, Any]) -> tuple[dict[str, Any], tuple[Short, ...]]:
    """Return a record with all that it says in short written out, and what that was.

    A line that cannot be read stays as it is, and its finding stops the record. Every item keeps
    its place in its list, so that a path leads to the same thing before and after.
    """
    lines = list(lines_of(kind, data))
    gaps = list(_gaps(Vehicle, data, ())) if kind == "vehicle" else []
    if not lines and not gaps:
        return data, ()
    whole = copy.deepcopy(data)
    for path, missing in gaps:
        value_at(whole, path).update(copy.deepcopy(missing))
    shorts = [_left_out(path, missing) for path, missing in gaps]
    for line in lines:
        shorts.append(Short(line.rule_id, line.fault))
        if line.entry is not None:
            value_at(whole, line.path[:-1])[line.path[-1]] = line.entry
    return whole, tuple(shorts)


# ---- keys that are left out ---------------------------------------------------------------------
def _gaps(cls: type, data: Any, path: DataPath) -> Iterator[tuple[DataPath, dict[str, Any]]]:
    """Of each part the keys that are left out, with what they are read as."""
    if not isinstance(data, dict):
        return
    missing = _missing(fields_of(cls), data)
    if missing:
        yield path, missing
    for each in fields_of(cls):
        if each.inner is None or each.key not in data:
            continue
        place, value = (*path, each.key), data[each.key]
        if each.item is None:
            yield from _gaps(each.inner, value, place)
        else:
            for at, one in enumerate(items_of(value)):
                yield from _gaps(each.inner, one, (*place, at))


def _missing(fields: Sequence[Field], data: Mapping[str, Any]) -> dict[str, Any]:
    """The keys that are left out; one that is only misspelt is not left out."""
    found = {each.key: _unknown(each) for each in fields if each.key not in data}
    found = {key: value for key, value in found.items() if value is not None}
    misspelt = {nearest(key, found) for key in data.keys() - {each.key for each in fields}}
    return {key: value for key, value in found.items() if key not in misspelt}


def _unknown(each: Field) -> Any:
    """What a key says when nobody looked; None where leaving it out says something else."""
    if each.spec.optional:
        return None
    if each.spec.answer == UNKNOWN:
        return [UNKNOWN] if each.item is not None else UNKNOWN
    if each.inner is None or each.item is not None:
        return None
    inner = {one.key: _unknown(one) for one in fields_of(each.inner) if not one.spec.optional}
    return None if None in inner.values() else inner


def _left_out(path: DataPath, missing: Mapping[str, Any]) -> Short:
    keys = listed([quoted(key) for key in missing], "and")
    is_or_are = "is" if len(missing) == 1 else "are"
    message = f"{keys} {is_or_are} left out in {name_of(path, 'vehicle')}, and read as unknown"
    fix = Fix("add_keys", path, flow_text(missing))
    return Short(LEFT_OUT, Fault(path, message, "loombook mend types it", fix=fix))

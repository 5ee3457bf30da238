"""The JSON file of a record: what was typed and what was computed, never mixed."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from builder.model.words import Origin, RecordKind
from builder.rendering.page import BuildInfo

NOTICES: dict[Origin, str] = {
    "invented": "Invented: no real car, maker, part, shop or reading stands behind this record.",
    "measured": "Measured on a real car or part; still, check every pin on the car before you.",
}


def record_json(
    kind: RecordKind,
    record: Mapping[str, Any],
    computed: Mapping[str, Any],
    info: BuildInfo,
    record_sha256: str = "",
) -> str:
    """Return the JSON text of one record, as `schema/data-file.schema.json` describes it.

    "record" holds the raw facts exactly as the record's author typed them; "computed" holds
    what the tool made of them at this build (grades, plans) and is never written back.
    `record_sha256` is the sum of the record's file.
    Raises ValueError for a number JSON cannot hold.
    """
    about = _about(kind, record, info, record_sha256)
    content = {"about": about, "record": record, "computed": computed}
    parts = (f"{json.dumps(key)}:{_line(value)}" for key, value in content.items())
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _about(
    kind: RecordKind, record: Mapping[str, Any], info: BuildInfo, record_sha256: str
) -> dict[str, str]:
    data: Origin = record.get("data", "invented")
    lent = info.borrowed.get(f"{kind}s/{record.get('id')}.html")
    return {
        "kind": kind,
        "data": data,
        "notice": NOTICES[data],
        "licence": lent.data_licence if lent else info.data_licence,
        **({"borrowed": lent.words} if lent else {}),
        "record_sha256": record_sha256,
        "schema": f"../schema/{kind}.schema.json",
        "record": "raw facts as typed by the record's author",
        "computed": "computed at each build; not part of the record",
        "tool": f"loombook {info.tool_version}",
    }


def _line(value: object) -> str:
    """One line of JSON: indented output would take the slow encoder, ten times the time."""
    return json.dumps(
        value, ensure_ascii=False, allow_nan=False, default=_plain, separators=(",", ":")
    )


def _plain(value: object) -> object:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    raise TypeError(f"{type(value).__name__} has no place in a record's JSON")

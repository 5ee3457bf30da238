"""A visit as the text that its signature is made over."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any


def visit_text(data: Mapping[str, Any], visit: str) -> bytes:
    """Return everything that a visit says: who, when, where, each reading.

    Args:
        data: The record that it stands in as typed, schema-valid: the vehicle's or the visit's.
        visit: The id of one of its visits.

    How the file is laid out, what others measured and claimed, and what is said of the pins makes
    no difference; a figure, a cavity, a date or a handle does.

    Raises:
        KeyError: the record has no such visit.
    """
    said = next((each for each in data["sessions"] if each["id"] == visit), None)
    if said is None:
        raise KeyError(visit)
    readings = sorted((json.dumps(_plain(r), sort_keys=True), r) for r in _readings(data, visit))
    whole = {
        "vehicle": data.get("vehicle", data["id"]),
        "visit": said,
        "readings": [each for _, each in readings],
    }
    if recorded := [one for one in data.get("recordings", ()) if one["session"] == visit]:
        whole["recordings"] = recorded  # a visit without any says what it always said
    return (json.dumps(_plain(whole), sort_keys=True, indent=1) + "\n").encode()


def _readings(data: Mapping[str, Any], visit: str) -> Iterator[dict[str, Any]]:
    for one in data.get("places", ()):
        keys = ("plug", "cavity") if "plug" in one else ("panel", "fuse_position")
        place = {key.removeprefix("fuse_"): str(one[key]) for key in keys}
        yield from _of_visit(place, one, visit)
    for plug in data.get("plugs", ()):
        for pin in plug["pins"]:
            place = {"plug": plug["id"], "cavity": str(pin["cavity"])}
            yield from _of_visit(place, pin, visit)
    for each in data.get("fuse_positions", ()):
        place = {"panel": each["panel"], "position": each["position"]}
        yield from _of_visit(place, each, visit)


def _of_visit(
    place: dict[str, str], holder: Mapping[str, Any], visit: str
) -> Iterator[dict[str, Any]]:
    for reading in holder.get("readings", ()):
        if reading["session"] == visit:
            yield {"at": place, "reading": reading}


def _plain(value: Any) -> Any:
    """The same with 12.0 written as 12: how many noughts somebody types says nothing."""
    if isinstance(value, dict):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_plain(inner) for inner in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value

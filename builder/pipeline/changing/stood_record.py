"""A vehicle's record written as it stood on a day: the text that an old job is frozen with."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

from builder.editing.writing import write_record


def stood_text(data: dict[str, Any], day: str) -> str:
    """Return a vehicle's record without what was measured, said or settled after a day.

    The same as `model/stood.py`, in the record's own words: `data` is the record as typed, `day`
    YYYY-MM-DD.

    Raises:
        UneditableError: it holds a value that cannot be written.
    """
    stood = deepcopy(data)
    sessions = stood.get("sessions", [])
    later = {each["id"] for each in sessions if str(each["date"]) > day}
    first = [each for each in sessions if each["id"] not in later]
    _keep(stood, "sessions", first, optional=False)
    pins = [pin for plug in stood.get("plugs", []) for pin in plug.get("pins", [])]
    for pin in (*pins, *stood.get("fuse_positions", [])):
        read = [each for each in pin.get("readings", []) if each["session"] not in later]
        _keep(pin, "readings", read)
        claims = [each for each in pin.get("claims", []) if str(each["date"]) <= day]
        _keep(pin, "claims", claims)
    settled = [each for each in stood.get("resolutions", []) if str(each["date"]) <= day]
    _keep(stood, "resolutions", settled)
    return write_record(stood, "vehicle")


def anything_later(data: dict[str, Any], day: str) -> bool:
    """Whether a vehicle's record holds anything that came after a day."""
    pins = [pin for plug in data.get("plugs", []) for pin in plug.get("pins", [])]
    dated = [*data.get("sessions", []), *data.get("resolutions", [])]
    dated += [claim for pin in pins for claim in pin.get("claims", [])]
    return any(str(each["date"]) > day for each in dated)


def _keep(record: dict[str, Any], key: str, kept: list[Any], *, optional: bool = True) -> None:
    """Put what is left in the place of a list that is there; an empty one is as good as none."""
    if key in record and (kept or not optional):
        record[key] = kept
    else:
        record.pop(key, None)

"""Lines of new parts: a gain, single cores, a public key."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.compact import range_of, singles_of
from builder.editing.drafts.question import NOTHING, AnswerError, read_text


def gain_line(text: str) -> dict[str, Any]:
    """A range of gains that can be set, or the one figure of a fixed gain."""
    try:
        low, high = range_of(text)
    except AnswerError:
        return {"kind": "fixed", "value": read_text("converter", ("gain", "value"), text)}
    return {"kind": "adjustable", "min": low, "max": high}


def singles_line(text: str) -> list[dict[str, Any]]:
    """Single cores, or none."""
    return [] if text.strip().lower() in NOTHING else singles_of(text)


def key_line(text: str) -> str:
    """A public key as a .pub file holds it, without the remark, which names a person's machine."""
    return " ".join(text.split()[:2])

"""Lines of new parts: a gain, a supply, a correction of the bass, single conductors."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.compact import range_of, singles_of
from builder.editing.drafts.question import NOTHING, AnswerError, read_text
from builder.model.words import RecordKind


def gain_line(text: str) -> dict[str, Any]:
    """A range of gains that can be set, or the one figure of a fixed gain."""
    try:
        low, high = range_of(text)
    except AnswerError:
        return {"kind": "fixed", "value": read_text("converter", ("gain", "value"), text)}
    return {"kind": "adjustable", "min": low, "max": high}


def sensitivity_line(text: str) -> dict[str, Any]:
    """The input for full power at either end of the gain control."""
    low, high = range_of(text)
    return {"min_v_rms": low, "max_v_rms": high}


def bass_line(text: str) -> dict[str, Any] | str:
    """`DB at HZ`, or no."""
    if text.strip() == "no":
        return "no"
    amount, _, corner = text.partition("at")
    place = ("bass_rolloff_correction",)
    return {
        "max_db": read_text("converter", (*place, "max_db"), amount),
        "hz": read_text("converter", (*place, "hz"), corner),
    }


def supply_line(kind: RecordKind, text: str) -> dict[str, Any]:
    """`LEAST_V IDLE_A FUSE_A`."""
    figures = text.split()
    keys = ("min_v", "idle_a", "fuse_a")
    if len(figures) != len(keys):
        raise AnswerError("the supply has three figures: least V, idle A, fuse A, like 9 0.15 2")
    return {
        key: read_text(kind, ("supply", key), figure)
        for key, figure in zip(keys, figures, strict=True)
    }


def singles_line(text: str) -> list[dict[str, Any]]:
    """Single conductors, or none."""
    return [] if text.strip().lower() in NOTHING else singles_of(text)

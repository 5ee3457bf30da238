"""Lines of new parts: a supply, a correction of the bass, single conductors."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.compact import singles_of
from builder.editing.drafts.question import NOTHING, AnswerError, Answers, one, read_text


def figure_or_word(answers: Answers, name: str, word: str, path: tuple[str, ...]) -> Any:
    """A mapping of one figure of a converter, or the word that says there is none."""
    text = one(answers, name, word)
    return word if text == word else {path[-1]: read_text("converter", path, text)}


def bass_line(text: str) -> dict[str, Any]:
    """`DB at HZ`."""
    amount, _, corner = text.partition("at")
    place = ("bass_rolloff_correction",)
    return {
        "max_db": read_text("converter", (*place, "max_db"), amount),
        "hz": read_text("converter", (*place, "hz"), corner),
    }


def supply_line(kind: str, text: str) -> dict[str, Any]:
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

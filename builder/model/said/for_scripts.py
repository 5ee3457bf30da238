"""The word table as plain data for the scripts of a page, `theme/said-words.js` first."""

from __future__ import annotations

from typing import Any

from builder.model.said import LONGEST_SAID, TABLES
from builder.model.said.pin_words import NOISE


def said_data() -> dict[str, Any]:
    """Return by kind every word with what it stands for; [meanings, open end or ""] each."""
    return {
        "longest": LONGEST_SAID,
        "noise": sorted(NOISE),
        "tables": {
            kind: {word: [list(each.means), each.open_end] for word, each in table.items()}
            for kind, table in TABLES.items()
        },
    }

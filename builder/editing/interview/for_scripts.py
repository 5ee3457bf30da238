"""How a line about a pin is read, as plain data for a page: `theme/record-maker-lines.js`."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.pin_place import ALONE, NUMBERS, RUN_ON, WITH_PLUG
from builder.editing.drafts.pin_text import ONLY, SIZE
from builder.editing.interview.columns import (
    BETWEEN,
    CAVITY_CELL,
    DISTINCT,
    KIND_NAMES,
    LEAST_KNOWN,
    MOSTLY,
    SIZE_CELL,
    WEAK,
    WORD_KINDS,
    heading_names,
)
from builder.editing.interview.pasted import FACED_HEAD, PLUG_HEAD
from builder.editing.tabular.words import SPELT
from builder.model.said.faces import DENYING, FACE_NAMES, SIDES, named_phrases
from builder.speller import speller_data


def line_data() -> dict[str, Any]:
    """Return the patterns, all read without case, and the words that are no word of the table."""
    return {
        "with_plug": WITH_PLUG,
        "run_on": RUN_ON,
        "alone": ALONE,
        "numbers": list(NUMBERS),
        "size": SIZE,
        "only": ONLY,
        "plug_head": PLUG_HEAD,
        "faced_head": FACED_HEAD,
        "faces": list(named_phrases().items()),
        "denying": DENYING,
        "sides": list(SIDES),
        "face_names": FACE_NAMES,
        "columns": {
            "between": list(BETWEEN),
            "headings": heading_names(),
            "spelt": SPELT,
            "weak": list(WEAK),
            "least_known": LEAST_KNOWN,
            "names": KIND_NAMES,
            "words": list(WORD_KINDS),
            "cavity_cell": CAVITY_CELL,
            "size_cell": SIZE_CELL,
            "mostly": MOSTLY,
            "distinct": DISTINCT,
        },
        "speller": speller_data(),
    }

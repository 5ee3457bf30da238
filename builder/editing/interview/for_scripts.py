"""How a line about a pin is read, as plain data for a page: `theme/record-maker-lines.js`."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.pin_place import ALONE, NUMBERS, RUN_ON, WITH_PLUG
from builder.editing.drafts.pin_text import ONLY, SIZE
from builder.editing.interview.pasted import HEADINGS, PLUG_HEAD
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
        "headings": sorted(HEADINGS),
        "speller": speller_data(),
    }

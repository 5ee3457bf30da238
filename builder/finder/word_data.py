"""The finder's words as plain data for the page."""

from __future__ import annotations

from typing import Any

from builder.finder import words


def word_data() -> dict[str, Any]:
    """Return the tables that `finder-words.js` and `finder-answers.js` read."""
    return {
        "meanings": [[one.kind, one.means, one.words] for one in words.MEANINGS],
        "longestWord": words.LONGEST_WORD,
        "mainAnswers": words.MAIN_ANSWERS,
        "switched": sorted(words.SWITCHED),
        "yearWords": words.YEAR_WORDS,
        "sets": {
            "noise": sorted(words.NOISE),
            "and": sorted(words.AND_WORDS),
            "plug": sorted(words.PLUG_WORDS),
            "cavity": sorted(words.CAVITY_WORDS),
            "fuse": sorted(words.FUSE_WORDS),
            "stripe": sorted(words.STRIPE_WORDS),
            "joining": sorted(words.JOINING_WORDS),
            "yearsBetween": sorted(words.YEARS_BETWEEN),
            "yearsOnward": sorted(words.YEARS_ONWARD),
        },
    }

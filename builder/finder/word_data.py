"""The finder's words as plain data for the page."""

from __future__ import annotations

from typing import Any

from builder.finder import words
from builder.finder.grammar import RULES
from builder.model.said.functions import SWITCHED


def word_data() -> dict[str, Any]:
    """Return the tables that `finder-words.js` and `finder-answers.js` read."""
    return {
        "meanings": [[one.kind, one.means, one.words] for one in words.MEANINGS],
        "askedBack": words.ASKED_BACK,
        "longestWord": words.LONGEST_WORD,
        "mainAnswers": words.MAIN_ANSWERS,
        "switched": sorted(SWITCHED),
        "instead": words.INSTEAD,
        "sets": {name: sorted(each) for name, each in words.WORD_SETS.items()},
        "grammar": [
            [rule.kind, [list(part) for part in rule.pattern], rule.value] for rule in RULES
        ],
    }

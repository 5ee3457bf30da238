"""Colours of wires as people write them; what stands for two colours is refused."""

from __future__ import annotations

import re

from builder.editing.tabular.faults import CellError
from builder.editing.tabular.words import ALIKE_COLOURS, COLOUR_WORDS
from builder.schema_check.schemas import schema_at
from builder.schema_check.yaml_words import listed
from builder.speller import nearest

_BETWEEN = re.compile(r"\s*[/\\+,&|]\s*|\s+(?:with|and|stripe|tracer)\s+|\s*[-–]\s*")
_LEGAL = "type one of: {}"


def read_colour(text: str) -> str:
    """One colour in the words of the records.

    Raises:
        CellError: it is none, or stands for several.
    """
    word = re.sub(r"[\s\-_]+", " ", text.strip().lower().rstrip(".")).removesuffix(" stripe")
    if word in COLOUR_WORDS:
        return COLOUR_WORDS[word]
    if word in ALIKE_COLOURS:
        meant = listed(list(ALIKE_COLOURS[word]))
        raise CellError("TAB109", f'"{text}" could be {meant}', f"write out {meant}")
    legal: list[str] = schema_at("vehicle", ("plugs", 0, "pins", 0, "wire", "base"))["enum"]
    near = nearest(word, legal)
    hint = f"did you mean {near}? " if near else ""
    raise CellError("TAB108", f'"{text}" is no colour', hint + _LEGAL.format(", ".join(legal)))


def read_colours(text: str) -> tuple[str, str | None]:
    """Base and stripe of one cell, such as wht/blk or White-Black.

    Raises:
        CellError: one of them is no colour, or there are more than two.
    """
    whole = re.sub(r"[\s\-_]+", " ", text.strip().lower())
    if whole in COLOUR_WORDS:
        return COLOUR_WORDS[whole], None
    parts = [part for part in _BETWEEN.split(text.strip().lower()) if part]
    if len(parts) == 1 and " " in parts[0]:
        parts = parts[0].split()
    if len(parts) > 2:
        raise CellError("TAB108", f'"{text}" has more than two colours', "type base/stripe")
    read = [read_colour(part) for part in parts] or [read_colour(text)]
    return read[0], read[1] if len(read) > 1 else None

"""What a row of the word table says, and the sources its rows name."""

from __future__ import annotations

from typing import Literal, NamedTuple

COMMON = "common practice, no source"
TERMINALS = "DIN 72552-2 (second-hand)"
TERMINALS_READ = "DIN 72552-2 (read)"
COLOUR_CODES = "IEC 60757 (memory)"


MeaningKind = Literal["function", "channel", "colour"]


class Meaning(NamedTuple):
    """Words that mean the same, and where that is written."""

    kind: MeaningKind
    means: tuple[str, ...]  # words of the records, best first
    words: tuple[str, ...]  # as people say them, lower case, one space between tokens
    source: str

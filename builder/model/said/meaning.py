"""What a row of the word table says, and the sources its rows name."""

from __future__ import annotations

from typing import Final, Literal, NamedTuple

COMMON = "common practice, no source"
TERMINALS = "DIN 72552-2 (second-hand)"
TERMINALS_READ = "DIN 72552-2 (read)"
COLOUR_CODES = "IEC 60757 (memory)"

EMPTY: Final = "empty"
"""What is written of a cavity without terminal, where else a function stands."""
ELSE: Final = "something else"
OTHER_COLOUR: Final = "another colour"
"""Stand beside a single meaning that nobody can be sure of: the word is asked back."""
OPEN_ENDS: frozenset[str] = frozenset({ELSE, OTHER_COLOUR})

MeaningKind = Literal["function", "channel", "colour"]


class Meaning(NamedTuple):
    """Words that mean the same, and where that is written.

    A question to the finder looks for all that `means` says, the best first. A record is written
    with one word: `written` says with which, or, of several, between which it is asked back; ()
    says the same as `means`.
    """

    kind: MeaningKind
    means: tuple[str, ...]  # words of the records, best first
    words: tuple[str, ...]  # as people say them, lower case, one space between tokens
    source: str
    written: tuple[str, ...] = ()

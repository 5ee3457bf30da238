"""How people say the words of the records: one table for every way in.

Questions, tables, the interview, readings of a line and the pages' scripts all take their words
from here. `said` says what a word stands for where a record is written: with one word of the
records, or between which it has to be asked back.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Literal, NamedTuple, get_args

from builder.model.said.channels import CHANNELS, PARTS
from builder.model.said.colours import ALIKE_COLOURS, COLOURS, SHORT_COLOURS
from builder.model.said.functions import FUNCTIONS
from builder.model.said.meaning import OPEN_ENDS, Meaning
from builder.model.said.states import ALIKE_STATES, STATE_WORDS
from builder.model.said.units import LEG_WORDS
from builder.model.wire_colours import WIRE_SRGB_HEX
from builder.model.words import CHANNELS as CHANNEL_WORDS
from builder.model.words import FUNCTIONS as FUNCTION_WORDS
from builder.model.words import STATES, Leg

SaidKind = Literal["function", "channel", "colour", "state", "leg"]


class Said(NamedTuple):
    """What a word stands for: nothing that is known, one word of the records, or several.

    `open_end` is "" or says what it could be as well, of which the record has no word here.
    """

    means: tuple[str, ...] = ()
    open_end: str = ""

    @property
    def sure(self) -> bool:
        """Whether one word of the records is meant, and nothing else can be."""
        return len(self.means) == 1 and not self.open_end

    @property
    def asked(self) -> bool:
        """Whether it has to be asked back."""
        return bool(self.means) and not self.sure

    @property
    def choices(self) -> tuple[str, ...]:
        """Between what it is asked back."""
        return (*self.means, self.open_end) if self.open_end else self.means


def said(kind: SaidKind, written: str) -> Said:
    """Return what a word or phrase stands for where a record is written; nothing when unknown."""
    return TABLES[kind].get(plain_said(written), Said())


def kinds_of(words: Iterable[str]) -> tuple[SaidKind, ...]:
    """The kinds whose words some words of the records are; all kinds where they are of none."""
    asked = frozenset(words)
    found = tuple(kind for kind, own in _OWN.items() if own >= asked)
    return found or tuple(_OWN)


def plain_said(written: str) -> str:
    """A word or phrase without case, underscores and doubled blanks; `front-left` has a blank."""
    text = written.lower().replace("/", " / ").replace("’", "'").rstrip(". ")
    text = re.sub(r"(?<=[a-z0-9])-(?=[a-z])|(?<=[a-z])\.(?=[a-z])", " ", text)
    return re.sub(r"[\s_]+", " ", text).strip()


def _from_rows(rows: Iterable[Meaning]) -> dict[str, Said]:
    found: dict[str, Said] = {}
    for row in rows:
        of_row = _said(row.written or row.means)
        found |= {plain_said(word): of_row for word in row.words}
    return found


def _said(choices: Iterable[str]) -> Said:
    all_of_it = tuple(choices)
    return Said(
        tuple(one for one in all_of_it if one not in OPEN_ENDS),
        next((one for one in all_of_it if one in OPEN_ENDS), ""),
    )


def _own(words: Iterable[str]) -> dict[str, Said]:
    """The records' own words; `data_high` may be typed with a blank."""
    return {plain_said(word): Said((word,)) for word in words}


def _channels() -> dict[str, Said]:
    """Corners, and corners with a part: `fl tweeter`, `front left woofer`."""
    rows = _from_rows(CHANNELS)
    own = _own(CHANNEL_WORDS)
    parts = {word: said.means[0] for word, said in rows.items() if said.means[0] in PARTS}
    with_part = {
        f"{corner} {word}": Said((f"{said.means[0]}-{part}",))
        for corner, said in rows.items()
        for word, part in parts.items()
        if f"{said.means[0]}-{part}" in CHANNEL_WORDS and said.sure
    }
    return {word: said for word, said in rows.items() if word not in parts} | with_part | own


def _states() -> dict[str, Said]:
    ways = {
        plain_said(way): Said((meant,)) for meant, words in STATE_WORDS.items() for way in words
    }
    asked = {word: _said(choices) for word, choices in ALIKE_STATES.items()}
    return ways | asked | _own(STATES)


def _all_ones(table: Mapping[str, str]) -> dict[str, Said]:
    return {word: Said((meant,)) for word, meant in table.items()}


def _asked(table: Mapping[str, tuple[str, ...]]) -> dict[str, Said]:
    return {word: _said(choices) for word, choices in table.items()}


_OWN: dict[SaidKind, frozenset[str]] = {
    "function": frozenset(FUNCTION_WORDS),
    "channel": frozenset(CHANNEL_WORDS),
    "colour": frozenset(WIRE_SRGB_HEX),
    "state": frozenset(STATES),
    "leg": frozenset(get_args(Leg)),
}
TABLES: dict[SaidKind, dict[str, Said]] = {
    "function": _from_rows(FUNCTIONS) | _own(FUNCTION_WORDS),
    "channel": _channels(),
    "colour": _from_rows(COLOURS) | _all_ones(SHORT_COLOURS) | _asked(ALIKE_COLOURS),
    "state": _states(),
    "leg": {word: Said((leg,)) for word, leg in LEG_WORDS.items()},
}
"""By kind, every word and phrase in its plain form, and what it stands for."""
LONGEST_SAID = max(word.count(" ") + 1 for table in TABLES.values() for word in table)
"""Words of the longest phrase."""

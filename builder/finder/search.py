"""The steps from a question to answers. Mirrored line by line in the page's `finder.js`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from builder.finder.entries import Entry, Row
from builder.finder.words import (
    CHANNEL_WORDS,
    COLOUR_WORDS,
    FUNCTION_WORDS,
    LONGEST_WORD,
    MAIN_ANSWERS,
    NOISE,
)

MOST_VEHICLES = 8
SLIP = 2  # what a word one slip away counts
TYPO_LENGTH = 4  # words shorter than this must be spelt right

_SPLIT = re.compile(r"[\s,;:?!()/]+")
_YEAR = re.compile(r"(?:19|20)[0-9]{2}")
_YEARS = re.compile(r"((?:19|20)[0-9]{2})[-–]((?:19|20)[0-9]{2})")


@dataclass(frozen=True, slots=True)
class Question:
    """What was asked, taken apart."""

    names: tuple[str, ...]
    years: tuple[int, int] | None
    functions: tuple[str, ...]
    channels: tuple[str, ...]
    colours: tuple[str, ...]


class Answer(NamedTuple):
    """A vehicle that fits and the rows that answer; several vehicles mean: ask which."""

    entry: Entry
    rows: tuple[Row, ...]


def understand(text: str) -> Question:
    """Take a question apart: names, years, functions, channels, colours; noise is dropped."""
    tokens = [token for token in _SPLIT.split(text.lower()) if token]
    names: list[str] = []
    years: tuple[int, int] | None = None
    functions: list[str] = []
    channels: list[str] = []
    colours: list[str] = []
    at = 0
    while at < len(tokens):
        span, kind, word = _known(tokens, at)
        if kind == "function":
            functions += FUNCTION_WORDS[word]
        elif kind == "channel":
            channels += CHANNEL_WORDS[word]
        elif kind == "colour":
            colours.append(COLOUR_WORDS[word])
        elif found := _years(tokens[at]):
            years = found
        elif tokens[at] not in NOISE:
            names.append(tokens[at])
        at += span
    if channels and not functions:
        functions = ["speaker", "line"]
    return Question(
        tuple(names), years, tuple(dict.fromkeys(functions)), tuple(channels), tuple(colours)
    )


def _known(tokens: Sequence[str], at: int) -> tuple[int, str, str]:
    """The longest known word that starts at a token: (tokens it spans, its kind, itself)."""
    for span in range(min(LONGEST_WORD, len(tokens) - at), 0, -1):
        word = " ".join(part.replace("-", " ") for part in tokens[at : at + span])
        for kind, table in (
            ("function", FUNCTION_WORDS),
            ("channel", CHANNEL_WORDS),
            ("colour", COLOUR_WORDS),
        ):
            if word in table:
                return span, kind, word
    return 1, "", tokens[at]


def _years(token: str) -> tuple[int, int] | None:
    if span := _YEARS.fullmatch(token):
        return int(span[1]), int(span[2])
    return (int(token), int(token)) if _YEAR.fullmatch(token) else None


def find(text: str, entries: Sequence[Entry]) -> list[Answer]:
    """Return the answers to a question, best first, at most `MOST_VEHICLES` vehicles."""
    return ranked(text, entries)[:MOST_VEHICLES]


def sisters_of(found: Sequence[Answer]) -> tuple[str, ...]:
    """Return the ids of every answer that is of the best answer's make and model, sorted."""
    first = found[0].entry if found else None
    return tuple(
        sorted(
            one.entry.id
            for one in found
            if first and (one.entry.make, one.entry.model) == (first.make, first.model)
        )
    )


def ranked(text: str, entries: Sequence[Entry]) -> list[Answer]:
    """Return every vehicle that answers a question, best first."""
    question = understand(text)
    if question == Question((), None, (), (), ()):
        return []
    scored = []
    for entry in entries:
        score, slips = _score(question, entry)
        rows = _rows(question, entry) if score >= 0 else ()
        # A vehicle without a fitting row still answers when it was named: "no such wire".
        if score > 0 or (score == 0 and rows):
            scored.append((slips, -score, not rows, entry.id, Answer(entry, rows)))
    # A slip of the finger is forgiven only when nothing is spelt as it was asked.
    fewest = min((slips for slips, *_ in scored), default=0)
    kept = sorted((item for item in scored if item[0] == fewest), key=lambda item: item[:4])
    return [answer for *_, answer in kept]


def _score(question: Question, entry: Entry) -> tuple[int, int]:
    """How well the names fit, and with how many slips; (-1, 0) when one does not fit at all."""
    years = question.years
    if years and not (entry.year_from <= years[1] and years[0] <= entry.year_to):
        return -1, 0
    words = _words(entry)
    slips = 0
    total = 1 if years and question.names else 0
    for name in question.names:
        best = max(_fit(name, word) for word in words)
        if best == 0:
            return -1, 0
        slips += best == SLIP
        total += best
    return total, slips


def _words(entry: Entry) -> list[str]:
    text = f"{entry.make} {entry.model} {entry.variant} {entry.id.replace('-', ' ')}"
    return [word for word in _SPLIT.split(text.lower()) if word]


def _fit(name: str, word: str) -> int:
    """4 the same word, 3 its beginning, 2 one slip of the finger, 0 neither."""
    if name == word:
        return 4
    if word.startswith(name):
        return 3
    return SLIP if len(name) >= TYPO_LENGTH and one_slip(name, word) else 0


def one_slip(a: str, b: str) -> bool:
    """Whether one letter added, left out, changed, or swapped with its neighbour makes b of a."""
    if abs(len(a) - len(b)) > 1:
        return False
    start = 0
    while start < min(len(a), len(b)) and a[start] == b[start]:
        start += 1
    rest_a, rest_b = a[start:], b[start:]
    return (
        rest_a[1:] == rest_b[1:]
        or rest_a[1:] == rest_b
        or rest_a == rest_b[1:]
        or (rest_a[:2] == rest_b[1::-1] and rest_a[2:] == rest_b[2:])
    )


def _rows(question: Question, entry: Entry) -> tuple[Row, ...]:
    wanted = question.functions or (() if question.colours else MAIN_ANSWERS)
    rows = [
        row
        for row in entry.rows
        if (not wanted or row.function in wanted)
        and _channel_fits(row.channel, question.channels)
        and all(colour in row.wire for colour in question.colours)
    ]
    if wanted:
        rows.sort(key=lambda row: wanted.index(row.function))
    return tuple(rows)


def _channel_fits(channel: str, wanted: tuple[str, ...]) -> bool:
    """Places are alternatives ("front" is two); woofer or tweeter narrows them."""
    places = [word for word in wanted if word not in {"woofer", "tweeter"}]
    parts = [word for word in wanted if word in {"woofer", "tweeter"}]
    placed = not places or any(
        channel == place or channel.startswith(f"{place}-") for place in places
    )
    return placed and (not parts or any(channel.endswith(part) for part in parts))

"""What is said of one pin, in any order: function or channel and leg, and the colours.

`theme/said-words.js` is the twin on a page; a test gives both the same lines.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.model.said import LONGEST_SAID, Said, SaidKind, said
from builder.model.said.units import MINUS_SIGNS

NOISE = frozenset(
    {"/", "with", "w", "stripe", "striped", "tracer", "trace", "and", "wire", "is", "a", "-", ":"}
    | {
        "the",
        "colour",
        "color",
        "leg",
        "on",
        "pin",
        "12v",
        "+12v",
        "=",
        "(",
        ")",
        "cable",
        "supply",
        "out",
    }
)
"""Words that say nothing of a pin by themselves."""
FUNCTION_KINDS: tuple[SaidKind, ...] = ("function", "channel")
_PARTS = re.compile(r"[()\[\]\"|;\t]|,(?![0-9])")


class Phrase(NamedTuple):
    """Words of a line that stand for something, as they were written."""

    kind: SaidKind
    written: str
    meant: Said


@dataclass(slots=True)
class PinWords:
    """What was understood of one line; `left` is what was not."""

    phrases: list[Phrase] = field(default_factory=list)
    left: list[str] = field(default_factory=list)

    def of(self, kind: SaidKind) -> list[Phrase]:
        """The phrases of a kind in their order."""
        return [each for each in self.phrases if each.kind == kind]

    @property
    def asked(self) -> list[Phrase]:
        """The phrases that stand for more than one thing."""
        return [each for each in self.phrases if each.meant.asked]


def pin_words(text: str) -> PinWords:
    """Return what a line says of a pin, its place and its size taken away before."""
    found, words = PinWords(), _words(text)
    at = 0
    while at < len(words):
        at += _take(words, at, found)
    return found


def _words(text: str) -> list[str]:
    plain = text.lower().replace("(+)", "+").replace("(-)", "-")
    plain = re.sub(r"\bw/(?=\s)", "with", re.sub(f"[{MINUS_SIGNS}]", "-", plain))
    plain = plain.replace("/", " / ")
    words = [part for word in _PARTS.sub(" ", plain).split() for part in _parted(word)]
    return [word.rstrip(".") or word for word in words]


def _parted(word: str) -> list[str]:
    """`fl+` as two words, `wht-blk` as two colours; what is a word as it stands stays whole."""
    if any(said(kind, word).means for kind in (*FUNCTION_KINDS, "colour")):
        return [word]
    stem = word.rstrip(":+-")
    sign = word[len(stem) :].strip(":")
    if stem and sign in ("+", "-") and said("channel", stem).means:
        return [stem, sign]
    parts = [part for part in word.rstrip(":").split("-") if part]
    if len(parts) == 2 and all(said("colour", part).means for part in parts):
        return parts
    return [word.rstrip(":")] if word.rstrip(":") else []


def _take(words: list[str], at: int, found: PinWords) -> int:
    """Put the longest phrase from a word on where it belongs; return of how many words it is."""
    for span in range(min(LONGEST_SAID, len(words) - at), 0, -1):
        phrase = _phrase(" ".join(words[at : at + span]), found)
        if phrase is not None:
            found.phrases.append(phrase)
            return span
    if words[at] not in NOISE:
        found.left.append(words[at])
    return 1


def _phrase(text: str, found: PinWords) -> Phrase | None:
    for kind in _open_kinds(found):
        meant = said(kind, text)
        if meant.means:
            return Phrase(kind, text, meant)
    return None


def _open_kinds(found: PinWords) -> list[SaidKind]:
    """Of which kinds a line can still say something; a leg stands behind its channel."""
    functions, channels, legs = (found.of(kind) for kind in ("function", "channel", "leg"))
    paired = not functions or set(functions[0].meant.means) & {"speaker", "line"}
    kinds: list[SaidKind] = ["leg"] if channels and not legs else []
    kinds += ["channel"] if paired and not channels else []
    kinds += ["function"] if not functions and not channels else []
    return [*kinds, "colour"] if len(found.of("colour")) < 2 else kinds

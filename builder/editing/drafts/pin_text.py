"""One pin as people type it, say it or paste it: what was understood, asked back, or not known."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from builder.editing.drafts.pin_place import place_of
from builder.editing.drafts.question import AnswerError, IncompleteError, read_text
from builder.model.said import Said, SaidKind, said
from builder.model.said.meaning import EMPTY
from builder.model.said.pin_words import Phrase, PinWords, pin_words
from builder.model.words import FUNCTIONS, PAIRED
from builder.schema_check.schemas import schema_at
from builder.schema_check.yaml_words import listed
from builder.speller import nearest, surely

SIZE = (
    r"(?:^|[\s,;|])([0-9]+(?:[.,/][0-9]+)?)\s*(mm2|mm²|sqmm|mm|awg|ga)\.?[\s,;|]*$"
    r"|(?<=[a-z])[\s,;|]+([0-9]+[.,][0-9]+)[\s,;|]*$"
)
ONLY = (
    r"[\s,;(]only\s+(?:(?:on|in|for|with|the)\s+)*"
    r"([a-z0-9][a-z0-9-]*(?:\s*(?:,|/|&|\band\b)\s*[a-z0-9][a-z0-9-]*)*)"
    r"(?:\s+trims?)?\s*\)?\s*$"
    r"|[\s,;(]([a-z0-9][a-z0-9-]*)(?:\s+trims?)?\s+only\s*\)?\s*$"
)
"""A size, and the trims that a line holds for, at its end: `only sport`, `(sport only)`.

The page's script reads by the same patterns."""
_SIZE, _ONLY = re.compile(SIZE, re.I), re.compile(ONLY, re.I)
Meant = Mapping[str, str]
"""What was said before that words mean, by the word as written."""


@dataclass(slots=True)
class PinSaid:
    """What one line says of a pin. `asked` has to be settled before it is one."""

    text: str
    plug: str
    cavity: int | str
    size: dict[str, Any] = field(default_factory=dict)
    trims: list[str] = field(default_factory=list)
    words: PinWords = field(default_factory=PinWords)
    guessed: list[Phrase] = field(default_factory=list)

    @property
    def asked(self) -> list[Phrase]:
        """Words that stand for several things, and words that were guessed."""
        return [*self.words.asked, *self.guessed]


def read_pin(text: str, plugs: Sequence[str], meant: Meant) -> PinSaid:
    """Return what a line says of a pin.

    Args:
        text: The line.
        plugs: The plugs of the car; with one alone, a line need not name it.
        meant: What words of earlier lines were said to mean.

    Raises:
        AnswerError: it names no cavity, or says nothing of it.
    """
    place = place_of(text, plugs)
    if place is None or not place.rest.strip():
        raise IncompleteError(text)
    plug = place.plug or (plugs[0] if len(plugs) == 1 else "")
    if not plug:
        raise AnswerError(f'which plug is "{text.strip()}" in? type its letter before the cavity')
    rest, trims = _without_trims(place.rest)
    rest, size = _without_size(rest)
    found = PinSaid(text, plug, cavity_of(place.cavity), size, trims, pin_words(rest))
    _settle(found, meant)
    _guess(found)
    return found


def trims_meet(some: Sequence[str], others: Sequence[str]) -> bool:
    """Whether two lines hold for one car: those without trims hold for all of them."""
    return not some or not others or not set(some).isdisjoint(others)


def cavity_of(word: str) -> int | str:
    """A cavity's name: a number, or a letter with digits."""
    value: int | str = read_text("vehicle", ("plugs", 0, "pins", 0, "cavity"), word.upper())
    return value


def size_of(text: str) -> dict[str, Any]:
    """The size of a wire: `18 awg`, `1/0 awg`, `0.75` or `0.75 mm2`."""
    plain = text.strip().lower()
    if plain.endswith(("awg", "ga")):
        return {"size_awg": read_text("cable", ("size_awg",), plain.rstrip("awg ").rstrip())}
    plain = plain.replace("sqmm", "mm2")
    plain = plain.removesuffix("mm").rstrip() if plain.endswith("mm") else plain
    return {"size_mm2": read_text("cable", ("size_mm2",), plain)}


def _without_size(rest: str) -> tuple[str, dict[str, Any]]:
    found = _SIZE.search(rest)
    if found is None:
        return rest, {}
    return rest[: found.start()], size_of(found[0].strip(" \t,;|"))


def _without_trims(rest: str) -> tuple[str, list[str]]:
    found = _ONLY.search(rest)
    if found is None:
        return rest, []
    names = re.split(r"\s*(?:[,/&]|\band\b)\s*", found[1] or found[2], flags=re.I)
    place = ("plugs", 0, "pins", 0, "only_if", "trims", 0)
    return rest[: found.start()], [read_text("vehicle", place, name) for name in names]


def _settle(found: PinSaid, meant: Meant) -> None:
    """Put in what was said before; then what is left may have a meaning too."""
    found.words.phrases = [
        phrase._replace(meant=Said((meant[phrase.written],))) if phrase.written in meant else phrase
        for phrase in found.words.phrases
    ]
    for word in [word for word in found.words.left if word in meant]:
        found.words.left.remove(word)
        found.words.phrases.append(Phrase(_kind_of(meant[word]), word, Said((meant[word],))))


def _kind_of(word: str) -> SaidKind:
    return next(
        kind
        for kind in ("function", "channel", "colour", "leg")
        if said(kind, word).means == (word,)
    )


def _guess(found: PinSaid) -> None:
    """Words that are nearly known: a function while none is said, else a colour."""
    for word in list(found.words.left):
        legal = _open_words(found)
        near = nearest(word, legal)
        if near is None or len(word) < 3:
            continue
        found.words.left.remove(word)
        phrase = Phrase(_kind_of(near), word, Said((near,)))
        found.words.phrases.append(phrase)
        if surely(word, legal) is None or len(word) < 5:
            found.guessed.append(phrase)


def _open_words(found: PinSaid) -> list[str]:
    """What a word can still be: a wire has two colours, and a third is not dropped unsaid."""
    named = found.words.of("function") or found.words.of("channel")
    coloured = len(found.words.of("colour")) > 1
    return [*(() if named else FUNCTIONS), *(() if coloured else colours())]


def colours() -> list[str]:
    """The words for colours of insulation."""
    found: list[str] = schema_at("cable", ("singles", 0, "base"))["enum"]
    return found


def pin_of(found: PinSaid) -> dict[str, Any] | None:
    """Return the pin as data, None for an empty cavity.

    Raises:
        AnswerError: something is not known, has to be asked back, or is missing.
    """
    _refuse_open(found)
    function = _function(found)
    if function.get("function") == EMPTY:
        if found.trims:
            raise AnswerError("empty holds for every car of the record; type not used for one trim")
        return None
    pin: dict[str, Any] = {"cavity": found.cavity, **function}
    if found.trims:
        pin["only_if"] = {"trims": found.trims}
    wire = [phrase.meant.means[0] for phrase in found.words.of("colour")]
    if wire:
        pin["wire"] = dict(zip(("base", "stripe"), wire, strict=False)) | found.size
    elif found.size:
        raise AnswerError(f'"{found.text.strip()}" has a size and no colour; type unknown for it')
    return pin


def _refuse_open(found: PinSaid) -> None:
    if found.asked:
        phrase = found.asked[0]
        choices = phrase.meant.choices
        if len(choices) == 1:
            raise AnswerError(f'"{phrase.written}" is not known: did you mean {choices[0]}?')
        could = listed(list(choices))
        line = found.text.strip()
        raise AnswerError(f'"{phrase.written}" in "{line}" could be {could}; write it out')
    if not found.words.left:
        return
    words = " ".join(found.words.left)
    if len(found.words.of("colour")) == 2:
        raise AnswerError(f'"{words}" is one too many: a wire has a colour and a stripe')
    if found.words.of("function") or found.words.of("channel"):
        raise AnswerError(f'"{words}" in "{found.text}" is no colour: {", ".join(colours())}')
    raise AnswerError(f'"{words}" is no function: known are {", ".join(FUNCTIONS)}')


def _function(found: PinSaid) -> dict[str, Any]:
    words = found.words
    function = next((each.meant.means[0] for each in words.of("function")), "")
    if not words.of("channel"):
        if function in PAIRED:
            raise AnswerError('a speaker wire needs channel and leg, like "fl+" or "rear-left -"')
        if not function:
            raise AnswerError(f'what is "{found.text.strip()}"? type its function, or unknown')
        return {"function": function}
    channel = words.of("channel")[0]
    if not words.of("leg"):
        name = channel.written
        raise AnswerError(f'which leg of {channel.meant.means[0]}? type "{name}+" or "{name}-"')
    leg = words.of("leg")[0].meant.means[0]
    return {"function": function or "speaker", "channel": channel.meant.means[0], "leg": leg}

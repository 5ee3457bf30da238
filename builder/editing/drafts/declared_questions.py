"""The questions of a new part, as the declarations of its keys ask them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Any

from builder.declaring import Field, fields_of, rules_of
from builder.editing.drafts.question import Answers, IncompleteError, Question, one, read_text
from builder.findings import DataPath
from builder.model.kinds import DECLARED
from builder.model.said.units import READ_UNITS, UNIT_WORDS
from builder.model.words import RecordKind

Readers = Mapping[str, Callable[[str], Any]]
_FIRST = ("name", "maker", "title")


def declared_questions(kind: RecordKind, readers: Readers) -> tuple[Question, ...]:
    """Return the questions of a kind in the order they are asked.

    `readers` read the answers to those that a schema alone cannot read, by their names.
    """
    questions = _questions(DECLARED[kind], kind, (), readers)
    return tuple(sorted(questions, key=lambda question: question.name not in _FIRST))


def _questions(cls: type, kind: RecordKind, path: DataPath, readers: Readers) -> Iterator[Question]:
    for each in fields_of(cls):
        place = (*path, each.key)
        if each.spec.ask:
            yield _question(each, kind, place, readers)
        elif each.inner is not None:
            inner = (*place, 0) if each.item else place
            yield from _questions(each.inner, kind, inner, readers)


def _question(each: Field, kind: RecordKind, place: DataPath, readers: Readers) -> Question:
    name = each.spec.option or each.key.replace("_", "-")
    read = readers.get(name)
    if read is None and each.inner is not None:
        read = partial(part_or_word, each, kind, place)
    spec, when = each.spec, partial(_may_be, DECLARED[kind], str(place[0]))
    return Question(name, spec.ask, place, spec.answer, many=spec.lines, read=read, when=when)


def part_or_word(each: Field, kind: RecordKind, place: DataPath, text: str) -> Any:
    """A part, or one of a list, of the keys that it must have; or the word for there is none.

    Between those of a list stand commas, since they may be texts; between figures spaces, a dash,
    to or at.
    """
    assert each.inner is not None
    if text.strip() in each.spec.means:
        return text.strip()
    keys = [inner.key for inner in fields_of(each.inner) if not inner.spec.optional]
    texts = [text] if len(keys) == 1 else text.split(",") if each.item else figures_in(text)
    if len(texts) != len(keys):
        raise IncompleteError(text)
    inside = (*place, 0) if each.item else place
    pairs = zip(keys, texts, strict=True)
    return {key: read_text(kind, (*inside, key), said) for key, said in pairs}


def figures_in(text: str) -> list[str]:
    """The figures of a line as they were typed: `9 0.15 2`, `0.25-4`, `9 V, 3 mA, 2 A`.

    A dash before a figure alone is its sign.

    >>> figures_in("12 dB at 40 Hz"), figures_in("9 V 3 mA / 2A"), figures_in("0.25 - 4")
    (['12 dB', '40 Hz'], ['9 V', '3 mA', '2A'], ['0.25', '4'])
    """
    parts = re.split(r"\s*(?:–|to|at)\s*|\s+-\s+|(?<=[^\s,;/])-\s*", text.strip())
    if len(parts) > 1:
        return parts
    found: list[str] = []
    for word in re.split(r"[,;]\s+|\s*/\s*|\s+", text.strip()):
        if found and word.lower() in _UNITS:
            found[-1] += f" {word}"
        elif word:
            found.append(word)
    return found


_UNITS = READ_UNITS.keys() | {word for words in UNIT_WORDS.values() for word in words}
"""What stands behind a figure with a space between."""


def _may_be(cls: type, key: str, answers: Answers) -> bool:
    """Whether no condition of the kind leaves a key nothing to say, after the answers so far."""
    return not any(_leaves_nothing(rule.schema, key, answers) for rule in rules_of(cls))


def _leaves_nothing(rule: Mapping[str, Any], key: str, answers: Answers) -> bool:
    asked = rule["if"].get("properties", {})
    holds = asked and all(
        isinstance(said, dict) and one(answers, word) in said.get("enum", ())
        for word, said in asked.items()
    )
    left = rule.get("then", {}).get("properties", {}).get(key, True)
    no_choice = left is False or (isinstance(left, dict) and len(left.get("enum", "two")) == 1)
    return bool(holds) and no_choice

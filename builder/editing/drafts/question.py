"""A question, and how its answer is read as the schema asks for it."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from builder.findings import DataPath
from builder.model.said.faces import FACE_SAID
from builder.model.words import SchemaKind
from builder.schema_check.key_wording import to_read
from builder.schema_check.meant import date_meant, figure_meant
from builder.schema_check.schemas import Schema, resolve, schema_at
from builder.schema_check.yaml_words import listed
from builder.speller import choices, nearest, surely

Answers = Mapping[str, list[str]]
"""Answers by the name of their question: one text, or one for each line of a list."""

NOTHING = frozenset({"", "none", "[]", "-"})
_CODE = "^[a-z0-9]+(?:-[a-z0-9]+)*$"


class AnswerError(ValueError):
    """An answer that cannot be taken; the message says what to type."""


class IncompleteError(AnswerError):
    """An answer that lacks something; who knows the question repeats it."""

    def __init__(self, text: str) -> None:
        super().__init__(f'"{text}" is not complete')


@dataclass(frozen=True, slots=True)
class Question:
    """One question.

    `name` is the option that answers it, `path` where its answer goes in the record, () when
    the record is made of it otherwise. Without a `default` it must be answered. Only `asked`
    questions are put to a person; the others are options with a default. `many` takes a line
    for each item. `when` says, from the answers so far, whether it has a sense at all.
    """

    name: str
    prompt: str
    path: DataPath = ()
    default: str | None = None
    asked: bool = True
    many: bool = False
    read: Callable[[str], Any] | None = None
    when: Callable[[Answers], bool] = lambda answers: True


def one(answers: Answers, name: str, default: str = "") -> str:
    """The single answer to a question, or a default."""
    return (answers.get(name) or [default])[0].strip()


def every(answers: Answers, name: str) -> list[str]:
    """Every line of the answer to a question; none when nobody answered."""
    return answers.get(name, [])


def slug(text: str) -> str:
    """A text as an id: small letters, digits, single hyphens."""
    return "-".join(re.findall(r"[a-z0-9]+", text.lower()))


def read_text(kind: SchemaKind, path: DataPath, text: str) -> Any:
    """An answer as the schema of a place in a record asks for it.

    Raises:
        AnswerError: it cannot be read so.
    """
    return read_as(schema_at(kind, path), text)


def read_as(schema: Schema, text: str) -> Any:
    """An answer as a schema asks for it.

    Raises:
        AnswerError: it cannot be read so.
    """
    schema, text = resolve(schema), text.strip()
    types = schema.get("type", "string")
    words = schema.get("then", {}).get("enum", [])
    if types == "array":
        items = [] if text.lower() in NOTHING else text.strip("[]").split(",")
        return [read_as(schema["items"], item) for item in items]
    if text in words:
        return text
    if "number" in types or "integer" in types:
        return _figure(schema, text, types)
    return _word(schema, text)


def _figure(schema: Schema, text: str, types: Any) -> Any:
    meant = figure_meant(text, schema.get("unit", ""))
    if meant is None and "string" in types and re.search(schema.get("pattern", "$^"), text):
        return text
    if meant is None or not meant.sure:
        unit = schema.get("unit", "")
        doubt = f" ({meant.doubt})" if meant else ""
        raise AnswerError(f'"{text}" is no number{doubt}; type {unit} as a number: {_of(schema)}')
    value = json.loads(meant.text)
    low, above = schema.get("minimum"), schema.get("exclusiveMinimum")
    high = schema.get("maximum")
    too_low = (low is not None and value < low) or (above is not None and value <= above)
    if too_low or (high is not None and value > high):
        raise AnswerError(f"{meant.text} is outside {low if low is not None else above} to {high}")
    if types == "integer" and not isinstance(value, int):
        raise AnswerError(f"{meant.text} is no whole number")
    return value


def _word(schema: Schema, text: str) -> str:
    legal = schema.get("enum")
    if legal:
        face = FACE_SAID.get(text.lower().replace("_", " "), "")
        word = text if text in legal else face if face in legal else surely(text, legal)
        if word is None:
            near, between = nearest(text, legal), choices(text, legal)
            hint = f"did you mean {near}? " if near else ""
            if len(between) > 1:
                hint = f"it could be {listed(between)}; "
            raise AnswerError(f'"{text}" is not one of the words: {hint}{", ".join(legal)}')
        return word
    if schema.get("formMeaning", "").startswith("YYYY-MM"):
        meant = date_meant(text, month="DD" not in schema["formMeaning"])
        text = meant.text if meant is not None and meant.sure else text
    if schema.get("pattern") == _CODE:
        text = slug(text)
    if not re.search(schema.get("pattern", ""), text):
        form = schema.get("formMeaning", "some text")
        raise AnswerError(f'"{text}" should be {form}')
    return text


def _of(schema: Schema) -> str:
    examples = schema.get("examples", [])
    return to_read(schema) or (json.dumps(examples[0], ensure_ascii=False) if examples else "")

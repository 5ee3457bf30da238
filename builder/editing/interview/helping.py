"""What `?` says at a question: its words and their meanings, and the form; never a reading."""

from __future__ import annotations

from collections.abc import Iterator

from builder.editing.interview.log import PINS
from builder.editing.interview.steps import Step
from builder.model.words import RecordKind
from builder.schema_check.schemas import Schema, resolve, schema_at

_FEW = 6
"""The most words that stand behind a question."""
_PINS = (
    "One wire a line: plug, cavity, what it does, colours, size.",
    "  A 4 acc yellow/red          A4 accessory yel/red        4 acc yellow with red stripe",
    "  A 1 fl+ white               A 1 front left plus white   A 6 empty: no terminal in it",
    "  What nobody knows is unknown: A 9 unknown. A terminal with an unused wire: not used.",
    "  paste takes a whole table from a mail or a notebook; shown is what was understood.",
)
_COMMANDS = (
    "back: the question before · undo: takes the last line back · list: what stands so far",
    "photo FILE what it shows: copies it without place and time · stop, Ctrl-C: keeps the draft",
)


def help_lines(kind: RecordKind, step: Step) -> list[str]:
    """Return what is said when somebody asks what a question means."""
    if step.key == PINS:
        return [*_PINS, *_COMMANDS]
    lines = [step.prompt, *_words(step), *(_of_schema(kind, step) if step.path else ())]
    return [*lines, *_COMMANDS]


def choices_of(kind: RecordKind, step: Step) -> tuple[str, ...]:
    """The words that a question is answered with, where they are few enough to be read at once."""
    words = step.words
    if not words and step.path and not step.many:
        schema = schema_at(kind, step.path)
        words = tuple(schema.get("enum", ())) if schema.get("type") == "string" else ()
    said = step.prompt.lower()
    return words if 1 < len(words) <= _FEW and not all(word in said for word in words) else ()


def _words(step: Step) -> Iterator[str]:
    if step.words and not step.path:
        yield f"  one of: {', '.join(step.words)}"


def _of_schema(kind: RecordKind, step: Step) -> Iterator[str]:
    schema = schema_at(kind, step.path)
    if schema.get("description"):
        yield f"  {schema['description']}"
    item = resolve(schema["items"]) if "items" in schema else schema
    meanings = item.get("wordMeanings", {})
    words = item.get("enum") or item.get("then", {}).get("enum", ())
    for word in words:
        yield f"  {word}: {meanings[word]}" if meanings.get(word) else f"  {word}"
    yield from _form(item, schema)


def _form(item: Schema, schema: Schema) -> Iterator[str]:
    """The form of a text with an example; of a figure its unit alone, so that none is copied."""
    figure = {"number", "integer"} & {*_types(item)}
    if figure:
        yield (
            f"  a figure in {item['unit']}: type what you read"
            if item.get("unit")
            else "  a number"
        )
        return
    if item.get("formMeaning"):
        yield f"  {item['formMeaning']}"
    example = next((e for e in item.get("examples", ()) if isinstance(e, str)), None)
    if example and not item.get("enum"):
        yield f"  for example: {example}"
    if "items" in schema:
        yield "  several with commas between; none when you looked and there is none"


def _types(schema: Schema) -> list[str]:
    types = schema.get("type", ())
    return [types] if isinstance(types, str) else list(types)

"""TEMPLATE.yaml of a kind: a whole record whose comments are those of its declaration.

The values are chosen by hand, in the file: they make one sensible record together, which the first
examples of all keys would not. What the file does not say stands there as a comment, ready to be
opened.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

from builder.declaring import Field, fields_of, shared_name
from builder.editing.house_style import SECTIONS, WIDTH
from builder.editing.writing import item_lines, key_lines
from builder.findings import DataPath
from builder.loading import load_text
from builder.model.forms import CHANNEL
from builder.model.kinds import DECLARED
from builder.model.plug_forms import FUNCTION
from builder.model.words import RecordKind

_COLUMN = 32
_MOST_WORDS = 5
_BLANK = "blank-to-fill"
_IN_README = (FUNCTION, CHANNEL)
"""Lists that are too long for a comment."""


def template_file(kind: RecordKind, text: str) -> str:
    """Return the template of a kind; `text` is what it was, with its head and its values."""
    head, _, _ = text.partition("\n\n")
    data = load_text(text.encode(), "TEMPLATE.yaml").data
    assert data is not None
    return "\n".join([head, "", *_record(DECLARED[kind], data, kind, ())]) + "\n"


def _record(cls: type, data: Mapping[str, Any], kind: RecordKind, path: DataPath) -> Iterator[str]:
    for each in fields_of(cls):
        if not path and each.key in SECTIONS.get(kind, ()):
            yield ""
        if each.key in data:
            yield from _key(each, data[each.key], kind, (*path, each.key))
        else:
            place = (*path, each.key)
            first, *rest = _example_lines(each, kind, place)
            yield from _remarked(f"# {first}", comment_of(each), place)
            yield from (f"# {line}" for line in rest)


def _key(each: Field, value: Any, kind: RecordKind, path: DataPath) -> Iterator[str]:
    first, *rest = key_lines(each.key, value, kind, path)
    yield from _remarked(first, comment_of(each), path)
    if value == []:
        if each.inner is not None and shared_name(each.inner):
            yield from _words_inside(each.inner, path)
        yield from (f"# {line}" for line in _shown_item(each, kind, path))
    if not rest or each.inner is None:
        yield from rest
    elif shared_name(each.inner):
        if isinstance(value, list):
            yield from _words_inside(each.inner, path)
        yield from rest
    elif isinstance(value, dict):
        yield from (f"  {line}" for line in _record(each.inner, value, kind, path))
    else:
        for at, one in enumerate(value):
            yield from _item(each.inner, one, kind, (*path, at), remarked=at == 0)


def _example_lines(each: Field, kind: RecordKind, path: DataPath) -> list[str]:
    """An example of a key as lines, blank where somebody has to read a figure."""
    return _blanked(key_lines(each.key, _marked(_example(each)), kind, path))


def _example(each: Field) -> Any:
    """The first example of a key; of a list of parts, the first that holds one."""
    item = list(each.item.spec.examples[:1]) if each.item is not None else []
    filled = [*each.spec.examples, item] if each.inner else []
    return next(filter(None, filled), each.spec.examples[0])


def _marked(example: Any) -> Any:
    if isinstance(example, dict):
        return {key: _marked(value) for key, value in example.items()}
    if isinstance(example, list):
        return [_marked(one) for one in example]
    return _BLANK if example is None else example


def _blanked(lines: list[str]) -> list[str]:
    return [line.replace(_BLANK, "").rstrip() for line in lines]


def _shown_item(each: Field, kind: RecordKind, path: DataPath) -> list[str]:
    """What an item would be, where the template has none; nothing for a list of words."""
    return _example_lines(each, kind, path)[1:] if each.inner else []


def _words_inside(cls: type, path: DataPath) -> Iterator[str]:
    """The words of the keys of one-line items, whose keys have no comment of their own."""
    for each in fields_of(cls):
        if each.words and not each.spec.optional and each.spec.form not in _IN_README:
            text = f"{each.key}: {' | '.join(each.words)}"
            width = WIDTH - 2 * (len(path) - 1)
            yield from textwrap.wrap(
                text, width, initial_indent="  # ", subsequent_indent="  #   ",
                break_on_hyphens=False,
            )  # fmt: skip


def _item(
    cls: type, one: Mapping[str, Any], kind: RecordKind, path: DataPath, *, remarked: bool
) -> Iterator[str]:
    """An item of a list; only the first tells what its keys mean, if it is opened at all."""
    lines = item_lines(one, kind, path)
    if remarked and len(lines) > 1:
        first, *rest = _record(cls, one, kind, path)
        lines = [f"- {first}", *(f"  {line}" for line in rest)]
    yield from (f"  {line}" for line in lines)


def _remarked(line: str, comment: str, path: DataPath) -> list[str]:
    """A line with its comment beside it, or above it where that would be too long."""
    margin = 2 * (len(path) - 1)
    beside = f"{line:<{_COLUMN - margin}}# {comment}"
    if len(line) < _COLUMN - margin and len(beside) + margin <= WIDTH:
        return [beside]
    width = WIDTH - margin
    return [*textwrap.wrap(comment, width, initial_indent="# ", subsequent_indent="# "), line]


def comment_of(each: Field) -> str:
    """What a template says of a key: whether it may be left out, its words, what it is."""
    described = each.spec.description or _first_line(each.inner)
    said = described[0].lower() + described[1:].rstrip(".")
    some = each.words if len(each.words) <= _MOST_WORDS else ()
    if each.spec.form in _IN_README:
        said += "; the words stand in schema/README.md"
    optional = "optional" if each.spec.optional else ""
    return ": ".join(part for part in (optional, " | ".join(some), said) if part)


def _first_line(cls: type | None) -> str:
    return (cls.__doc__ or "").partition("\n\n")[0] if cls else ""

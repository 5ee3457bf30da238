"""The fixes that findings offer, made in the text at the place of the finding."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from builder.editing.edits import BYTE_ORDER_MARK, Edit, UneditableError, apply_edits
from builder.editing.layout import Part, entry_at, part_at, read_layout
from builder.editing.splicing import (
    insert_item,
    insert_key,
    remove_entry,
    remove_item,
    rename_key,
)
from builder.findings import Change, DataPath, Finding, Fix
from builder.loading import load_text
from builder.model.words import SchemaKind

REPEATED_KEY = "YML115"
_LEADING = re.compile(r"^([ ]*\t[ \t]*)", re.M)
_TAB_WIDTHS = (2, 4, 8)


def can_mend(finding: Finding) -> bool:
    """Whether a finding offers a fix, or may be one that can be mended by looking at the text."""
    return finding.fix is not None or finding.rule_id == REPEATED_KEY


def mend(text: str, kind: SchemaKind, finding: Finding) -> str:
    """Return the text with the fix of one finding made; only the place of the fix differs.

    Raises:
        UneditableError: the finding offers no fix, or the text is not as it was when found.
    """
    fix = finding.fix
    if finding.rule_id == REPEATED_KEY:
        return _without_repeated_key(text, finding)
    if fix is None:
        raise UneditableError("nothing can be typed here without asking")
    if fix.change == "retype":
        return _retyped(text, fix, finding)
    if fix.change == "expand_tabs":
        return expand_tabs(text)
    return _mend_at_path(text, kind, fix)


def _mend_at_path(text: str, kind: SchemaKind, fix: Fix) -> str:
    if fix.change == "rename_key":
        return rename_key(text, fix.path, fix.text)
    if fix.change == "remove":
        return remove_item(text, fix.path)
    if fix.change in _ADDING:
        return _ADDING[fix.change](text, kind, fix)
    return _with_value(text, kind, fix)


def _with_value(text: str, kind: SchemaKind, fix: Fix) -> str:
    part = part_at(read_layout(text), fix.path)
    if fix.change == "quote":
        return _put(text, part, f'"{_plain_text(text, part)}"')
    if fix.written and part.word != fix.written:
        raise UneditableError(f'the value is no longer "{fix.written}"')
    text = _put(text, part, fix.text)
    if fix.beside is not None:
        key, value = fix.beside
        text = insert_key(text, fix.path[:-1], key, value, kind)
    return text


def _with_key(text: str, kind: SchemaKind, fix: Fix) -> str:
    key = str(fix.path[-1])
    return insert_key(text, fix.path[:-1], key, _typed(fix), kind)


def _with_keys(text: str, kind: SchemaKind, fix: Fix) -> str:
    for key, value in _typed(fix).items():
        text = insert_key(text, fix.path, key, value, kind)
    return text


def _listed_empty(text: str, kind: SchemaKind, fix: Fix) -> str:
    """The text without a pin, and its cavity among those that have no terminal."""
    cavity, empty = _typed(fix), (*fix.path[:-2], "empty")
    there = part_at(read_layout(text), empty[:-1]).entry("empty")
    if there is None or all(each.part.word != str(cavity) for each in there.part.entries):
        text = insert_item(text, empty, cavity, kind)
    return remove_item(text, fix.path)


_ADDING: dict[Change, Callable[[str, SchemaKind, Fix], str]] = {
    "add_key": _with_key,
    "add_keys": _with_keys,
    "list_empty": _listed_empty,
}


def _typed(fix: Fix) -> Any:
    """What a fix types, as a record holds it."""
    typed = load_text(f"typed: {fix.text}", "").data
    assert typed is not None  # a value that a schema or a reader gave
    return typed["typed"]


def _put(text: str, part: Part, new: str) -> str:
    return apply_edits(text, [Edit(part.start, part.end, new)])


def _plain_text(text: str, part: Part) -> str:
    if part.kind != "scalar" or part.style:
        raise UneditableError("only a bare word or number can be put in quotes")
    return text[part.start : part.end]


def _retyped(text: str, fix: Fix, finding: Finding) -> str:
    at = place_of(text, finding.line, finding.column)
    start, end = at - len(fix.before), at + len(fix.written)
    if text[max(start, 0) : end] != fix.before + fix.written:
        raise UneditableError("the text is no longer what the finding saw")
    return apply_edits(text, [Edit(start, end, fix.text)])


def place_of(text: str, line: int, column: int) -> int:
    """The index of a line and column, both from 1; lines end as those of findings do."""
    index = 1 if text.startswith(BYTE_ORDER_MARK) else 0
    for end in re.finditer("\r\n|\r|\n", text):
        if line == 1:
            break
        line, index = line - 1, end.end()
    return index + column - 1


def _without_repeated_key(text: str, finding: Finding) -> str:
    """The text without the second of two keys of one mapping, when both say the same."""
    place = place_of(text, finding.line, finding.column)
    root = read_layout(text)
    path = _path_to(root, place, ())
    if path is None:
        raise UneditableError("the key is not where it was found")
    holder = part_at(root, path)
    second = next(entry for entry in holder.entries if entry.start == place)
    first = entry_at(holder, (second.key,))
    if first is second:
        raise UneditableError("the key does not stand twice")
    if text[first.part.start : first.part.end] != text[second.part.start : second.part.end]:
        raise UneditableError("the two keys do not say the same")
    return remove_entry(text, root, path, second)


def _path_to(part: Part, place: int, path: DataPath) -> DataPath | None:
    """The path of the mapping that has a key at a place."""
    for entry in part.entries:
        if part.kind == "mapping" and entry.start == place:
            return path
        if entry.part.start <= place < entry.part.end:
            return _path_to(entry.part, place, (*path, entry.key))
    return None


def expand_tabs(text: str) -> str:
    """Return the text with the tabs before its lines made spaces.

    Raises:
        UneditableError: how wide a tab is meant to be changes what the record says.
    """
    readings = {width: _expanded(text, width) for width in _TAB_WIDTHS}
    loaded = {width: load_text(new, "").data for width, new in readings.items()}
    good = [width for width in _TAB_WIDTHS if loaded[width] is not None]
    if not good or any(loaded[width] != loaded[good[0]] for width in good):
        raise UneditableError("it depends on the width of a tab what the record says")
    return readings[good[0]]


def _expanded(text: str, width: int) -> str:
    return _LEADING.sub(lambda found: found.group().replace("\t", " " * width), text)

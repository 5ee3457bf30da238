"""One change at a known place of a record's text; all the rest stays byte for byte."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builder.editing.edits import (
    Edit,
    UneditableError,
    after_line,
    apply_edits,
    line_end_of,
    line_start,
    line_stop,
)
from builder.editing.house_style import key_order
from builder.editing.layout import Entry, Part, entry_at, part_at, read_layout
from builder.editing.spelling import flow_text, key_text
from builder.editing.writing import item_lines, key_lines, one_line
from builder.findings import DataPath
from builder.model.words import SchemaKind


def insert_item(text: str, path: DataPath, item: Any, kind: SchemaKind | None = None) -> str:
    """Return the text with `item` added at the end of the list at `path`.

    A list that is missing from its mapping is added with its key, and an empty one is opened.
    A mapping written on one line in a block list (a short pin) is opened before it takes one.

    Raises:
        UneditableError: there is no mapping to hold the list, or no list at `path`.
    """
    root = read_layout(text)
    holder = part_at(root, path[:-1])
    if holder.kind == "mapping" and holder.flow and _can_open(root, path[:-1]):
        return insert_item(_opened(text, root, path[:-1]), path, item, kind)
    found = holder.entry(path[-1])
    if found is None and holder.kind == "mapping":
        return insert_key(text, path[:-1], str(path[-1]), [item], kind)
    part = part_at(root, path)
    if part.kind != "list":
        raise UneditableError(f'"{path[-1]}" is no list')
    if not part.entries:
        return _fill_empty(text, root, path, item, kind)
    place = (*path, len(part.entries))
    if part.flow:
        end = part.entries[-1].part.end
        return apply_edits(text, [Edit(end, end, f", {one_line(item, kind, place)}")])
    return _after(text, part.entries[-1], part.start, item_lines(item, kind, place))


def insert_key(
    text: str, path: DataPath, key: str, value: Any, kind: SchemaKind | None = None
) -> str:
    """Return the text with a key added to the mapping at `path`, () for the whole record.

    Raises:
        UneditableError: there is no mapping at `path`, or it has the key.
    """
    part = part_at(read_layout(text), path)
    if part.kind != "mapping":
        raise UneditableError(f'"{path[-1] if path else ""}" holds no keys')
    if part.entry(key) is not None:
        raise UneditableError(f'there is a key "{key}" already')
    before = _before(part, key, key_order(kind, path))
    if part.flow:
        return _into_braces(text, part, before, f"{key_text(key)}: {flow_text(value)}")
    if not part.entries:
        raise UneditableError("there is no key to put it beside")
    lines = key_lines(key, value, kind, (*path, key))
    if before is None:
        return _at_head(text, part.entries[0], lines)
    return _after(text, before, part.entries[0].start, lines)


def rename_key(text: str, path: DataPath, new: str) -> str:
    """Return the text with the last key of `path` spelt `new`.

    Raises:
        UneditableError: there is no such key, or there is one of the new name.
    """
    root = read_layout(text)
    entry = entry_at(root, path)
    if isinstance(entry.key, int):
        raise UneditableError("a list item has no key")
    if part_at(root, path[:-1]).entry(new) is not None:
        raise UneditableError(f'there is a key "{new}" already')
    return apply_edits(text, [Edit(entry.start, entry.key_end, key_text(new))])


def remove_item(text: str, path: DataPath) -> str:
    """Return the text without the list item or key at `path`; the last item leaves `[]`.

    Raises:
        UneditableError: there is nothing at `path`, or it is the only key of an open mapping.
    """
    root = read_layout(text)
    return remove_entry(text, root, path[:-1], entry_at(root, path))


def remove_entry(text: str, root: Part, path: DataPath, entry: Entry) -> str:
    """Return the text without an entry of the mapping or list at `path` of its layout `root`.

    Raises:
        UneditableError: it is the only key of an open mapping.
    """
    holder = part_at(root, path)
    if holder.flow:
        return apply_edits(text, out_of_brackets(holder, [entry]))
    if len(holder.entries) == 1:
        if holder.kind == "mapping" or not path:
            raise UneditableError("nothing would be left of it")
        start = text.index(":", entry_at(root, path).key_end) + 1
        return apply_edits(text, [Edit(start, holder.end, " []")])
    return apply_edits(text, [_lines_of(text, holder, entry)])


def _lines_of(text: str, holder: Part, entry: Entry) -> Edit:
    """The lines of a block entry; when it shares its first with a dash, up to the next entry."""
    start = line_start(text, entry.start)
    if text[start : entry.start].strip():
        following = holder.entries[holder.entries.index(entry) + 1]
        return Edit(entry.start, following.start, "")
    return Edit(start, after_line(text, entry.part.end), "")


def out_of_brackets(holder: Part, gone: Sequence[Entry]) -> list[Edit]:
    """Return the edits that take entries out of braces or brackets, with the commas they leave.

    What goes side by side goes in one edit: each cut ends where what stays begins, or begins where
    it ends, so that no two of them meet.
    """
    places = sorted(holder.entries.index(entry) for entry in gone)
    runs = [places[:1]] if places else []
    for place in places[1:]:
        if place == runs[-1][-1] + 1:
            runs[-1].append(place)
        else:
            runs.append([place])
    return [_run_out(holder.entries, run[0], run[-1]) for run in runs]


def _run_out(entries: Sequence[Entry], first: int, last: int) -> Edit:
    """The edit that takes out the entries from the first to the last of a run."""
    if last + 1 < len(entries):
        return Edit(entries[first].start, entries[last + 1].start, "")
    start = entries[first - 1].part.end if first else entries[first].start
    return Edit(start, entries[last].part.end, "")


def _before(part: Part, key: str, order: list[str]) -> Entry | None:
    """The entry that a new key follows; None when it comes first."""
    if key not in order:
        return part.entries[-1] if part.entries else None
    earlier = set(order[: order.index(key)])
    return next((entry for entry in reversed(part.entries) if entry.key in earlier), None)


def _into_braces(text: str, part: Part, before: Entry | None, pair: str) -> str:
    if text[part.start] != "{":
        raise UneditableError("a key cannot be added where there are no braces")
    if before is not None:
        end = before.part.end
        return apply_edits(text, [Edit(end, end, f", {pair}")])
    comma = ", " if part.entries else ""
    return apply_edits(text, [Edit(part.start + 1, part.start + 1, pair + comma)])


def _at_head(text: str, first: Entry, lines: list[str]) -> str:
    """Before the first key, which may stand behind a dash."""
    indent = " " * (first.start - line_start(text, first.start))
    end = line_end_of(text)
    new = end.join([lines[0], *(f"{indent}{line}" for line in lines[1:]), indent])
    return apply_edits(text, [Edit(first.start, first.start, new)])


def _after(text: str, before: Entry, column_at: int, lines: list[str]) -> str:
    """Below an entry of a block, in the column of the place `column_at`."""
    indent = " " * (column_at - line_start(text, column_at))
    end = line_end_of(text)
    stop = line_stop(text, before.part.end)
    new = "".join(f"{end}{indent}{line}" if line else end for line in lines)
    return apply_edits(text, [Edit(stop, stop, new)])


def _fill_empty(text: str, root: Part, path: DataPath, item: Any, kind: SchemaKind | None) -> str:
    """The first item of `[]`: opened below its key, where its holder is open too."""
    entry, holder = entry_at(root, path), part_at(root, path[:-1])
    place = (*path, 0)
    if holder.flow or holder.kind == "list":
        inside = entry.part.start + 1
        return apply_edits(text, [Edit(inside, inside, one_line(item, kind, place))])
    indent = " " * (entry.start - line_start(text, entry.start) + 2)
    end = line_end_of(text)
    stop = line_stop(text, entry.part.end)
    lines = "".join(f"{end}{indent}{line}" for line in item_lines(item, kind, place))
    colon = text.index(":", entry.key_end) + 1
    # A comment behind the brackets stays where it is, with the space they leave.
    rest = text[entry.part.end : stop].strip()
    start = entry.part.start if rest else colon
    stop_of_brackets = entry.part.end if rest else stop
    return apply_edits(text, [Edit(start, stop_of_brackets, ""), Edit(stop, stop, lines)])


def _can_open(root: Part, path: DataPath) -> bool:
    """Whether the mapping at `path` is a one-line item of a block list."""
    if not path or not isinstance(path[-1], int):
        return False
    return not part_at(root, path[:-1]).flow and bool(part_at(root, path).entries)


def _opened(text: str, root: Part, path: DataPath) -> str:
    """The text with a one-line mapping behind a dash written one key a line."""
    part = part_at(root, path)
    if line_stop(text, part.start) < part.end:
        raise UneditableError("the braces run over several lines")
    indent = line_end_of(text) + " " * (part.start - line_start(text, part.start))
    pairs = [
        f"{text[entry.start : entry.key_end]}: {text[entry.part.start : entry.part.end]}"
        for entry in part.entries
    ]
    return apply_edits(text, [Edit(part.start, part.end, indent.join(pairs))])

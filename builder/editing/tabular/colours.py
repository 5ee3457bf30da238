"""Colours of wires in a cell; what stands for two colours is asked back."""

from __future__ import annotations

from builder.editing.tabular.faults import CellError
from builder.model.said import Said, said
from builder.model.said.wires import colours_said
from builder.schema_check.schemas import schema_at
from builder.schema_check.yaml_words import listed
from builder.speller import nearest

_LEGAL = "type one of: {}"


def read_colour(text: str) -> str:
    """One colour in the words of the records.

    Raises:
        CellError: it is none, or stands for several.
    """
    word = text.strip().lower().replace("_", " ").removesuffix(" stripe")
    return _one(text, said("colour", word))


def read_colours(text: str) -> tuple[str, str | None]:
    """Base and stripe of one cell, such as wht/blk or White-Black.

    Raises:
        CellError: one of them is no colour, or there are more than two.
    """
    found = colours_said(text)
    if len(found) > 2:
        raise CellError("TAB108", f'"{text}" has more than two colours', "type base/stripe")
    read = [_one(each.written, each.meant) for each in found] or [read_colour(text)]
    return read[0], read[1] if len(read) > 1 else None


def _one(text: str, meant: Said) -> str:
    if meant.sure:
        return meant.means[0]
    if meant.asked:
        choices = listed(list(meant.choices))
        raise CellError("TAB109", f'"{text}" could be {choices}', f"write out {choices}")
    legal: list[str] = schema_at("vehicle", ("plugs", 0, "pins", 0, "wire", "base"))["enum"]
    near = nearest(text.strip().lower(), legal)
    hint = f"did you mean {near}? " if near else ""
    raise CellError("TAB108", f'"{text}" is no colour', hint + _LEGAL.format(", ".join(legal)))

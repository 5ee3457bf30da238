"""Lines of a new loom: its branches, its wires; and of a new interface its outputs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from builder.editing.drafts.compact import rows_of, wire_of
from builder.editing.drafts.pin_text import size_of
from builder.editing.drafts.question import IncompleteError, read_text
from builder.model.words import UNKNOWN
from builder.schema_check.schemas import schema_at

_BARE = "bare"
_OUTPUT = re.compile(
    r"([a-z_ ]+?) +([0-9.]+) *(?:ma)?"
    r"(?:,? *after *([0-9.]+|unknown) *s?)?(?:,? *held *([0-9.]+|unknown) *s?)?",
    re.I,
)


def branch_line(text: str) -> dict[str, Any]:
    """`NAME, HOUSING or bare, METRES`; the metres may be left out."""
    name, plug, *long = _parts(text, (2, 3))
    place = ("branches", 0)
    branch = {"name": read_text("loom", (*place, "name"), name)}
    if plug.lower() != _BARE:
        branch["housing"] = read_text("loom", (*place, "housing"), plug)
    if long:
        branch["length_m"] = read_text("loom", (*place, "length_m"), long[0])
    return branch


def loom_wire_line(text: str) -> dict[str, Any]:
    """`CAVITIES` that run straight or `FROM > TO`, then colours, size and what it carries."""
    joined, *said = _parts(text, (1, 2, 3, 4))
    wire = _joined(joined, text)
    words = schema_at("loom", ("wires", 0, "carries"))["enum"]
    if said and said[-1] in words:
        wire["carries"] = said.pop()
    if said:
        wire["wire"] = wire_of(said[0], text)
    if said[1:]:
        wire["wire"] |= size_of(said[1])
    return wire


def _joined(text: str, whole: str) -> dict[str, Any]:
    start, arrow, to = (part.strip() for part in text.partition(">"))
    if arrow:
        ends = {"from": start, "to": to}
        return {key: read_text("loom", ("wires", 0, key), end) for key, end in ends.items()}
    cavities = [cell for row in rows_of(start) for cell in row]
    if not cavities or "_" in cavities:
        raise IncompleteError(whole)
    return {"through": cavities}


def output_line(text: str) -> dict[str, Any]:
    """`FUNCTION MILLIAMPERES, after SECONDS, held SECONDS`; the seconds may be left out."""
    found = _OUTPUT.fullmatch(text.strip())
    if found is None:
        raise IncompleteError(text)
    function, *figures = found.groups()
    keys = ("max_ma", "delay_s", "hold_s")
    said = {key: each for key, each in zip(keys, figures, strict=True) if each is not None}
    place = ("outputs", 0)
    output = {"function": read_text("interface", (*place, "function"), function.replace(" ", "_"))}
    for key, each in said.items():
        output[key] = each if each == UNKNOWN else read_text("interface", (*place, key), each)
    return output


def _parts(text: str, counts: Sequence[int]) -> list[str]:
    parts = [part.strip() for part in text.split(",")]
    if len(parts) not in counts:
        raise IncompleteError(text)
    return parts

"""House style for a record that people wrote: what differs from it, and the text put right.

Only white space, line ends, the order of keys and the schema line are ever changed. Each step is
checked: a text that would no longer hold the same data and the same comments is given back as it
was.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial
from typing import Any, NamedTuple

from builder.editing import indenting, line_rules, reordering
from builder.editing.edits import BYTE_ORDER_MARK, UneditableError, apply_edits
from builder.editing.style_fault import StyleFault
from builder.loading import load_text
from builder.model.words import SchemaKind

_MOST_ROUNDS = 12
_COMMENT = re.compile(r"(?:^|[ \t])#[^\r\n]*", re.M)


class Step(NamedTuple):
    """One thing the house style asks for: what breaks it in a text, with the edits that mend it."""

    name: str
    faults: Callable[[str], list[StyleFault]]
    whole: bool = False  # whether its faults can only be mended together


def steps_for(kind: SchemaKind, schema_ref: str, *, correct_ref: bool = True) -> tuple[Step, ...]:
    """All steps for a record of a kind, in the order they are made.

    Args:
        kind: The kind of the record.
        schema_ref: Relative path of its schema, for the first line.
        correct_ref: Whether a first line that names another path is wrong.
    """
    return (
        Step("line ends", line_rules.line_ends),
        Step(
            "schema line",
            partial(line_rules.schema_line, schema_ref=schema_ref, correct=correct_ref),
        ),
        Step("tabs", line_rules.tabs),
        Step("white space", line_rules.white_space),
        Step("key order", partial(reordering.key_order_faults, kind=kind)),
        Step("indentation", indenting.indentation, whole=True),
        Step("spacing", line_rules.spacing),
    )


MENDED_BY_FIX = ("schema line", "key order")
"""The steps that `mend` makes beside what findings offer."""


def style_faults(text: str, steps: Sequence[Step]) -> list[StyleFault]:
    """What differs from the house style, by line; only what `tidied` would change.

    Raises:
        UneditableError: the text cannot be read as a record.
    """
    _data_of(text)
    found = [fault for step in steps for fault in _safe_faults(text, step)]
    return sorted(found, key=lambda fault: (fault.line, fault.message))


def tidied(text: str, steps: Sequence[Step]) -> str:
    """Return the text in the house style: the same data in other white space and order.

    Raises:
        UneditableError: the text cannot be read as a record.
    """
    _data_of(text)
    for _ in range(_MOST_ROUNDS):
        before = text
        for step in steps:
            edits = [edit for fault in _safe_faults(text, step) for edit in fault.edits]
            text = apply_edits(text, edits)
        if text == before:
            break
    return text


def _safe_faults(text: str, step: Step) -> list[StyleFault]:
    """The faults of a step whose mending leaves data and comments as they are."""
    faults = step.faults(text)
    if not faults or _same(text, apply_edits(text, [e for fault in faults for e in fault.edits])):
        return faults
    if step.whole:
        return []
    # One of them does harm: leave out those that do harm alone, or all when that is not enough.
    good = [fault for fault in faults if _same(text, apply_edits(text, fault.edits))]
    together = apply_edits(text, [edit for fault in good for edit in fault.edits])
    return good if _same(text, together) else []


def _same(one: str, other: str) -> bool:
    data = load_text(other, "").data
    return data is not None and data == _data_of(one) and comments_of(one) == comments_of(other)


def _data_of(text: str) -> dict[str, Any]:
    loaded = load_text(text, "")
    if loaded.data is None:
        first = loaded.findings[0]
        raise UneditableError(f"line {first.line}: {first.message}")
    return loaded.data


def comments_of(text: str) -> Counter[str]:
    """What looks like a comment, quoted text included: nothing of it may be lost."""
    found = _COMMENT.findall(text.removeprefix(BYTE_ORDER_MARK))
    return Counter(
        stripped
        for comment in found
        if (stripped := comment.strip()) and not stripped.startswith(line_rules.SCHEMA_SIGN)
    )

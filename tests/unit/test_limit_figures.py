"""Sentences that put a figure beside its limit print both through the one function."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from builder_code import files, name_of, nodes_of
from each_case import each

LAYERS = ("rules/", "planning/", "proof/", "rendering/")
MODULES = [path for path in files() if name_of(path).startswith(LAYERS)]
COMPARES = re.compile(
    r"\b(at most|at least|allowed|asked|no more than|more than|less than|is under|is over|outside"
    r"|up to the|down to|lets go|limit)\b"
)
"""Words that put one figure against another. A band without a reading in it is none."""


def hand_made(path: Path) -> Iterator[tuple[int, str]]:
    """Tidied strings that compare two figures, and format one with a format of their own."""
    for node in nodes_of(path):
        if not isinstance(node, ast.JoinedStr):
            continue
        text = "".join(part.value for part in node.values if isinstance(part, ast.Constant))
        formats = [part for part in node.values if isinstance(part, ast.FormattedValue)]
        own = [part for part in formats if part.format_spec is not None]
        if own and len(formats) > 1 and COMPARES.search(text):
            yield node.lineno, text


@each("path", MODULES, ids=name_of)
def test_a_figure_beside_its_limit_is_printed_by_the_one_function(path: Path) -> None:
    assert list(hand_made(path)) == []

"""Old ids of vehicles in a question: read as the new ones.

Mirrored line by line in the page's `finder-said.js`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from builder.finder.forgiven import ReadAs

_ID = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)+")
"""Ids of vehicles as a rule have a hyphen; a word without one may be any name."""


class NewIds(NamedTuple):
    """A question with the ids of today in it, and what was read as them."""

    text: str
    read_as: tuple[ReadAs, ...]


def with_new_ids(text: str, renamed: Mapping[str, str]) -> NewIds:
    """Return a question with each old id made the new one; `renamed` is by old id."""
    read: list[ReadAs] = []

    def new_id(found: re.Match[str]) -> str:
        word = found[0].lower()
        if word not in renamed:
            return found[0]
        read.append(ReadAs(word, (renamed[word],)))
        return renamed[word]

    return NewIds(_ID.sub(new_id, text), tuple(dict.fromkeys(read)))

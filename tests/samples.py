"""How much a drawn test tries: a part in the suite, all of it in the long form.

LOOMBOOK_LONG=1 .venv/bin/python -m pytest tests/unit     the long form
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TypeVar

T = TypeVar("T")
LONG = bool(os.environ.get("LOOMBOOK_LONG"))
PART = 5
"""The suite tries one in so many; the long form has run over all of them before a landing."""


def many(long: int) -> int:
    """How many examples to draw where the long form draws `long`."""
    return long if LONG else max(10, long // PART)


def some(items: Sequence[T], offset: int = 0) -> Sequence[T]:
    """All items, or one in five from `offset` on, so that neighbours share them out."""
    return items if LONG else items[offset % PART :: PART]

"""The digests that keys are made of."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable


def sum_of(words: Iterable[str]) -> str:
    """Return one digest of all these words, in hexadecimal."""
    told = hashlib.sha256()
    for word in words:
        said = word.encode("utf-8", "surrogateescape")
        told.update(b"%d:" % len(said))
        told.update(said)
    return told.hexdigest()

"""The bytes of a file as they were at one moment, so that nobody has to read it a second time."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from pathlib import Path

from builder.loading import file_refusals
from builder.loading.bounded_file import FileTooLargeError, read_bounded
from builder.loading.refusals import Refusal

LARGEST_FILE_BYTES = 1_048_576
"""A hundred times the size of a full record of a vehicle."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What one look at a file found: its bytes, or why there are none.

    `digest` is the SHA-256 of the bytes in hexadecimal; of a file that is too large or cannot be
    read, of none.
    """

    raw: bytes
    refusal: Refusal | None = None
    digest: str = field(init=False)

    def __post_init__(self) -> None:
        """Work the digest out once."""
        object.__setattr__(self, "digest", hashlib.sha256(self.raw).hexdigest())

    @property
    def state(self) -> str:
        """What differs when the file does: the digest, or the reason why there is none."""
        return self.refusal.message if self.refusal else self.digest


def take_file(path: Path) -> Taken:
    """Look at a file once. Never raises for what is there, or is not."""
    try:
        return Taken(read_bounded(path, LARGEST_FILE_BYTES))
    except FileTooLargeError as error:
        return Taken(b"", file_refusals.file_too_large(error.most_bytes))
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        reason = getattr(error, "strerror", None) or str(error)
        return Taken(b"", file_refusals.file_unreadable(reason))

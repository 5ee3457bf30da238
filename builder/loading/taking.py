"""The bytes of a file as they were at one moment, so that nobody has to read it a second time."""

from __future__ import annotations

import hashlib
from pathlib import Path

from builder.bounded_file import FileTooLargeError, read_bounded
from builder.loading import file_refusals
from builder.loading.refusals import Refusal
from builder.saved_meanwhile import SavedMeanwhileError

LARGEST_FILE_BYTES = 1_048_576
"""A hundred times the size of a full record of a vehicle."""


class Taken:
    """What one look at a file found: its bytes, or why there are none.

    `digest` is the SHA-256 of the bytes in hexadecimal; of a file that is too large or cannot be
    read, of none. Two are equal when file by file the same was found.
    """

    __slots__ = ("_late", "_raw", "digest", "refusal")

    def __init__(self, raw: bytes, refusal: Refusal | None = None) -> None:
        self._raw: bytes | None = raw
        self._late: Path | None = None
        self.refusal = refusal
        self.digest = hashlib.sha256(raw).hexdigest()

    @classmethod
    def known(cls, path: Path, digest: str) -> Taken:
        """What stands at a path, of which only the digest is known: read when it is asked for."""
        taken = cls.__new__(cls)
        taken._raw, taken._late, taken.refusal, taken.digest = None, path, None, digest
        return taken

    @property
    def raw(self) -> bytes:
        """The bytes.

        Raises:
            SavedMeanwhileError: they were left where they stand, and are others now.
        """
        if self._raw is None:
            assert self._late is not None
            now = take_file(self._late)
            if now.refusal or now.digest != self.digest:
                raise SavedMeanwhileError(self._late)
            self._raw = now.raw
        return self._raw

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Taken) and (self.digest, self.refusal) == (
            other.digest,
            other.refusal,
        )

    def __hash__(self) -> int:
        return hash((self.digest, self.refusal))

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

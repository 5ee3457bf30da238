"""A file that is not what it was known to be, when it is read at last."""

from __future__ import annotations

from pathlib import Path


class SavedMeanwhileError(BaseException):
    """A file holds no more what was known of it: what was read beside it is older.

    No `Exception`: nothing may take it for what is wrong with a record, and keep that.
    """

    def __init__(self, path: Path) -> None:
        super().__init__(path)

    def __str__(self) -> str:
        """Say which file it is."""
        return f"{self.args[0]} was saved while the book was read"

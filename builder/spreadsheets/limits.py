"""How much a file may hold; all of it chosen by this project, far above any real record.

A record has at most some thousand rows of a hundred columns: a few hundred kilobytes unpacked.
"""

from __future__ import annotations

MOST_BYTES = 4_000_000
MOST_UNPACKED_BYTES = 12_000_000
MOST_PARTS = 300
MOST_SHEETS = 30
MOST_ROWS = 10_000
MOST_COLUMNS = 300
MOST_CELL_CHARACTERS = 4_000
MOST_JOINED = 1_000


class RefusedFileError(Exception):
    """A file that is not read: the message says what is wrong, `help` what to do instead.

    `place` is the name of a cell or sheet when one is to blame.
    """

    def __init__(self, message: str, help: str, place: str = "", unsafe: bool = False) -> None:
        super().__init__(message)
        self.help, self.place, self.unsafe = help, place, unsafe


def too_large() -> RefusedFileError:
    """The refusal of a file of more than `MOST_BYTES`."""
    return RefusedFileError(
        f"is larger than {MOST_BYTES // 1_000_000} MB; no table of one car is",
        "save the two sheets alone, without pictures, as a new file",
        unsafe=True,
    )


def refuse_place(row: int, column: int, place: str) -> None:
    """Refuse a cell outside the rows and columns that are read.

    Raises:
        RefusedFileError: it is outside.
    """
    if row > MOST_ROWS or column > MOST_COLUMNS:
        raise RefusedFileError(
            f"has something beyond row {MOST_ROWS} or column {MOST_COLUMNS}",
            "delete the rows below and the columns right of the table, and save it again",
            place,
            unsafe=True,
        )

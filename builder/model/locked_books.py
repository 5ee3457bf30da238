"""The books that one builds on: what stands in `books.lock`, which commands write."""

from __future__ import annotations

from builder.declaring import Form, figure, listed, record, text
from builder.model.forms import ID, SCHEMA_VERSION

_ONE_LINE = {"type": "string", "pattern": "[\\n\\r\\t]"}


def _word(longest: int, pattern: str, meaning: str) -> Form:
    """One line that git gets to read; none that it could take for an option."""
    return Form("", "", {"minLength": 1, "maxLength": longest, "pattern": pattern,
                "not": _ONE_LINE, "formMeaning": meaning})  # fmt: skip


ADDRESS = _word(
    500,
    "^((https|ssh|file)://[^ -]|[A-Za-z0-9_.]+@[A-Za-z0-9][A-Za-z0-9.-]*:|/|[.]{1,2}/)[^ ]*$",
    "an https, ssh or file address, user@host:path, or a path that begins with / or ./ or ../",
)
BRANCH = _word(
    100, "^[A-Za-z0-9_][A-Za-z0-9_.-]*(/[A-Za-z0-9_][A-Za-z0-9_.-]*)*$",
    "the name of a branch: words of letters, digits, . _ and - with / between them",
)  # fmt: skip
INNER = _word(
    300, "^([.]|[A-Za-z0-9_][A-Za-z0-9_.-]*(/[A-Za-z0-9_][A-Za-z0-9_.-]*)*)$",
    "a folder inside it with forward slashes, or . for its top",
)  # fmt: skip
COMMIT = _word(64, "^([0-9a-f]{40}|[0-9a-f]{64})$", "40 or 64 of the digits 0-9 and a-f")
SUM = _word(64, "^[0-9a-f]{64}$", "64 of the digits 0-9 and a-f")


@record
class LockedBook:
    """One book of others, and the state of it that counts here."""

    name: str = text("What this book calls it; its folder in .books.", "coast-shops", form=ID)
    address: str = text(
        "Where git fetches it from.", "https://forge.example/coast/book.git",
        "git@forge.example:coast/book.git", "../coast", form=ADDRESS,
    )  # fmt: skip
    branch: str = text(
        "The branch that `loombook books update` looks at; left out, the one the address opens "
        "with.", "main", form=BRANCH, default="",
    )  # fmt: skip
    folder: str = text(
        "The folder of its repository that the book stands in; left out, its top.", "pinouts",
        form=INNER, default=".",
    )  # fmt: skip
    commit: str = text(
        "The commit that was looked at and taken.", "0123456789abcdef0123456789abcdef01234567",
        form=COMMIT,
    )  # fmt: skip
    sum: str = text(
        "SHA-256 over the names and bytes of what was taken out of that commit.",
        "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef", form=SUM,
    )  # fmt: skip


@record
class BookLock:
    """The books of others that a book builds on, each at one commit."""

    schema: int = figure(
        "The version of the record format.", "", 1, form=SCHEMA_VERSION, default=1,
    )  # fmt: skip
    books: tuple[LockedBook, ...] = listed(
        "The books; `loombook books add` writes a line.", [{"name": "coast-shops", "address":
        "https://forge.example/coast/book.git", "commit":
        "0123456789abcdef0123456789abcdef01234567", "sum":
        "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"}], most=1000,
        unique=True, default=(),
    )  # fmt: skip

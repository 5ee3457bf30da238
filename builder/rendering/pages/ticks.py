"""Pages to tick and to fill in: their scripts, and the name a browser keeps their ticks under."""

from __future__ import annotations

from zlib import crc32

from builder.rendering.page import BuildInfo
from builder.rendering.pages.wording import url_name

SHEET_SCRIPTS = (
    "assets/ticks.js",
    "assets/judge.js",
    "assets/bay-reading.js",
    "assets/bay-export.js",
    "assets/bay-sheet.js",
)
"""What a page with a bay sheet asks for, in the order in which they build on each other."""


def tick_key(info: BuildInfo, page: str, digest: str, made: object) -> str:
    """Return `book/page:state`: ticks belong to one state of one page of one book.

    The book's name is in it because pages opened from files share one store, whatever book they
    are of. The state changes with `digest`, the sum of the records, and with `made`, the plan or
    pack that a version of this program made of them.
    """
    return f"{url_name(info.site_name)}/{page}:{digest}{crc32(repr(made).encode()):08x}"

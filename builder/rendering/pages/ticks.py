"""Pages to tick and to fill in: their scripts, and the name a browser keeps their ticks under."""

from __future__ import annotations

from builder.rendering.page import BuildInfo
from builder.rendering.pages.wording import url_name

SHEET_SCRIPTS = (
    "assets/ticks.js",
    "assets/judge.js",
    "assets/bay-reading.js",
    "assets/bay-export.js",
    "assets/bay-photos.js",
    "assets/bay-sheet.js",
    "assets/sheet-folds.js",
)
"""What a page with a bay sheet asks for, in the order in which they build on each other."""
WORK_SCRIPTS = (
    *SHEET_SCRIPTS,
    "assets/bay-notes.js",
    "assets/bay-screens.js",
    "assets/bay-causes.js",
    "assets/bay-standing.js",
    "assets/pin-card.js",
    "assets/bay-mode.js",
)
"""What the page of a whole job asks for: its steps and its sheet can be worked through in one."""


def tick_key(info: BuildInfo, page: str, digest: str) -> str:
    """Return `book/page:state`: ticks belong to one state of one page of one book.

    The book's name is in it because pages opened from files share one store, whatever book they
    are of. `digest` is the sum of what the plan or pack says.
    """
    return f"{url_name(info.site_name)}/{page}:{digest}"

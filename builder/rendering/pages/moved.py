"""The page at an old address: it leads to the page that the record has under its new name."""

from __future__ import annotations

from builder.rendering.page_policy import PAGE_POLICY
from builder.rendering.templates import fill


def moved_document(was: str, now: str, target: str) -> str:
    """Return the whole HTML document at an old address one folder deep.

    `was` and `now` are the names; `target` is the new page's file name, in the same folder. The
    document is no page of the shell: it has to be small, since a name of a car or a converter has
    one for each of its plans, and a browser leaves it before anybody reads it. Without a browser
    that follows, its one link does.
    """
    title = f"{was} is now called {now}"
    return str(fill("moved.html", title=title, target=target, policy=PAGE_POLICY))

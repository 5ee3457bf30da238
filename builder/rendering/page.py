"""What a finished page is before the shell is put round it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the site.

    `url` is relative to the site's root, with `/` and ending in `.html`. `title` and
    `description` are plain text (the shell escapes them), `body_html` is finished HTML.
    """

    url: str
    title: str
    description: str
    body_html: str


@dataclass(frozen=True, slots=True)
class BuildInfo:
    """What every page says of the build it came from. `as_of` is a date, YYYY-MM-DD."""

    site_name: str
    tool_version: str
    as_of: str

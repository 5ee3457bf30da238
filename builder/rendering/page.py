"""What a finished page is before the shell is put round it."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field, replace
from html import escape
from typing import NamedTuple

PRIVATE_MARK = (
    '<p class="private-mark"><strong>Private.</strong> For this shop only: '
    "a public site does not have this page.</p>\n"
)
BORROWED_MARK = '<p class="borrowed-mark">{words} Corrections go there. Terms: {terms}.</p>\n'


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the site.

    `url` is relative to the site's root, with `/` and ending in `.html`. `title` and
    `description` are plain text (the shell escapes them), `body_html` is finished HTML.
    `foot` says in plain text, at the foot of each printed page, which record this is. `scripts`
    are files of the site, relative to its root, that this page asks for and most others do not;
    they stand beside the body, so that a body of a record's words never holds a script.
    """

    url: str
    title: str
    description: str
    body_html: str
    foot: str = ""
    scripts: tuple[str, ...] = ()


class Borrowed(NamedTuple):
    """From where a record comes, as a sentence, and under which terms its book gives it."""

    words: str
    data_licence: str


@dataclass(frozen=True, slots=True)
class BuildInfo:
    """What every page says of the build it came from. `as_of` is a date, YYYY-MM-DD.

    `site_address` is where the site will stand (https), or "" when nobody said.
    `report_address` is the template of the address that corrections go to, or "". `private` holds
    the URLs of the pages that a public site does not have, `borrowed` from where the record of a
    page comes, by URL, that another book keeps. `data_licence` says under which terms
    others may use the records.
    """

    site_name: str
    tool_version: str
    as_of: str
    site_address: str = ""
    report_address: str = ""
    private: Set[str] = frozenset()
    borrowed: Mapping[str, Borrowed] = field(default_factory=dict)
    data_licence: str = "not stated: ask whoever keeps this book"

    def address_of(self, url: str) -> str:
        """Return the full address of a page of the site, or "" when the site has none."""
        return f"{self.site_address.rstrip('/')}/{url}" if self.site_address else ""

    def marked(self, page: Page) -> Page:
        """Return the page, with marks above everything else: private, borrowed."""
        marks = PRIVATE_MARK if page.url in self.private else ""
        if page.url in self.borrowed:
            words, terms = map(escape, self.borrowed[page.url])
            marks += BORROWED_MARK.format(words=words, terms=terms)
        return replace(page, body_html=marks + str(page.body_html)) if marks else page

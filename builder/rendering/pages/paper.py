"""What a page needs only on paper: the way back to it, and which record it was printed from."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup

from builder.model.words import Origin
from builder.rendering.drawings.page_code import page_code
from builder.rendering.page import BuildInfo


class WayBack(NamedTuple):
    """The address of a page and the code that leads a phone to it; both "" without a site."""

    address: str
    code: Markup


def way_back(info: BuildInfo, url: str) -> WayBack:
    """Return the way back from paper to the page at `url` of the site."""
    address = info.address_of(url)
    return WayBack(address, page_code(address) if address else Markup(""))


def foot_words(record: str, digest: str, data: Origin) -> str:
    """Return which record a printed page was made from, in which state, and if it is invented."""
    parts = (record, f"sum {digest}" if digest else "", "invented" if data == "invented" else "")
    return " · ".join(part for part in parts if part)

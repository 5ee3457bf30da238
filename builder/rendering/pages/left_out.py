"""Records that do not stand: a page in the place of each, and one that lists them all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.findings import Finding
from builder.model.words import RecordKind
from builder.rendering.page import BuildInfo, Page
from builder.rendering.templates import fill

URL = "left-out.html"


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A record that the site leaves out, and why.

    `urls` are the addresses where its pages would stand, plans among them.
    """

    kind: RecordKind
    name: str
    urls: tuple[str, ...]
    findings: tuple[Finding, ...]


def left_out_pages(left_out: Sequence[LeftOut], info: BuildInfo) -> Iterator[Page]:
    """Yield the list of what is left out and, at each of its addresses, a page that says why."""
    if not left_out:
        return
    title = "Left out until mended"
    body = fill("left_out.html", records=left_out, up="", info=info, title=title, alone=False)
    yield Page(URL, title, "Records of this book that do not stand.", body)
    for record in left_out:
        title = f"{record.name} does not stand"
        body = fill("left_out.html", records=[record], up="../", info=info, title=title, alone=True)
        for url in record.urls:
            yield Page(url, title, f"The {record.kind} {record.name} has open findings.", body)

"""A built site as it lies on a disk, for tests: its bad links, whoever wrote its pages."""

from __future__ import annotations

from pathlib import Path

from builder.rendering.links import BadLink, bad_links, page_links, style_faults


def check_folder(site: Path) -> list[BadLink]:
    """Return the bad links of a whole site on disk."""
    files = {
        path.relative_to(site).as_posix(): path
        for path in sorted(site.rglob("*"))
        if path.is_file()
    }
    texts = {
        name: path.read_text("utf-8")
        for name, path in files.items()
        if name.endswith((".html", ".css"))
    }
    pages = [page_links(name, text) for name, text in texts.items() if name.endswith(".html")]
    styles = [
        bad
        for name, text in texts.items()
        if name.endswith(".css")
        for bad in style_faults(name, text)
    ]
    return bad_links(pages, list(files)) + styles


def plain_cell(cell: str) -> str:
    """Return what the record says, from a cell of `pins.csv` that no spreadsheet runs."""
    return cell.removeprefix("'")

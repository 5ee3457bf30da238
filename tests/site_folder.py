"""A built site as it lies on a disk, for tests: its bad links, whoever wrote its pages."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema_rs

from builder.rendering.links import BadLink, page_links, style_faults
from builder.rendering.site_links import SiteLinks, together


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
    links = SiteLinks()
    for name, text in texts.items():
        if name.endswith(".html"):
            links.take_in(together([page_links(name, text)]))
    styles = [
        bad
        for name, text in texts.items()
        if name.endswith(".css")
        for bad in style_faults(name, text)
    ]
    return links.bad(files) + styles


def plain_cell(cell: str) -> str:
    """Return what the record says, from a cell of `pins.csv` that no spreadsheet runs."""
    return cell.removeprefix("'")


def validator(folder: Path, name: str) -> jsonschema_rs.Validator:
    """A schema file of a folder, its references leading to the files beside it."""
    schemas = {path.name: json.loads(path.read_text("utf-8")) for path in folder.glob("*.json")}
    registry = jsonschema_rs.Registry(list(schemas.items()))
    return jsonschema_rs.validator_for(schemas[f"{name}.schema.json"], registry=registry)

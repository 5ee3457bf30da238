"""Where the schemas and the page templates are: inside an installed package, or beside it."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).parent


def schema_folder() -> Path:
    """The folder that holds `*.schema.json`."""
    return _data_folder("schema")


def templates_folder() -> Path:
    """The folder that holds the pages, styles and scripts of the site."""
    return _data_folder("site_templates")


def _data_folder(name: str) -> Path:
    # A wheel carries both folders inside the package; an editable install has them beside it.
    inside = _PACKAGE / "_data" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name

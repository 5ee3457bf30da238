"""Where schemas, page templates and examples are: inside an installed package, or beside it."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).parent


def schema_folder() -> Path:
    """The folder that holds `*.schema.json`."""
    return _data_folder("schema")


def templates_folder() -> Path:
    """The folder that holds the pages, styles and scripts of the site."""
    return _data_folder("site_templates")


def examples_folder() -> Path:
    """The folder that holds `<kind>/TEMPLATE.yaml`."""
    return _data_folder("examples", "pinouts")


def forge_folder() -> Path:
    """The folder with the workflow and the templates that a forge reads."""
    return _data_folder("forge", ".github")


def _data_folder(name: str, beside: str = "") -> Path:
    # A wheel carries the folders inside the package; an editable install has them beside it.
    inside = _PACKAGE / "_data" / name
    return inside if inside.is_dir() else _PACKAGE.parent / (beside or name)

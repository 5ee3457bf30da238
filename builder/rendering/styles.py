"""The style sheets of the package: all of them for the site, one for a page that stands alone."""

from __future__ import annotations

import re

from builder.data_files import templates_folder

_COMMENT_OR_INDENT = re.compile(r"/\*.*?\*/\s*|^\s+", re.DOTALL | re.MULTILINE)
"""What a browser does not need of a style sheet. No string of a sheet of ours begins a comment."""
_FIRST = "base.css"  # colours and plain elements, which all others build on


def site_style() -> str:
    """Return the style sheet of every page, the plain elements first, without its comments."""
    names = (file.name for file in (templates_folder() / "theme").glob("*.css"))
    return _sheets(*sorted(names, key=lambda name: (name != _FIRST, name)))


def drawing_style() -> str:
    """Return the sheet that says how the shapes of a drawing are filled and stroked."""
    return _sheets("drawings.css")


def _sheets(*names: str) -> str:
    theme = templates_folder() / "theme"
    text = "\n".join((theme / name).read_text("utf-8") for name in names)
    return _COMMENT_OR_INDENT.sub("", text)

"""The licences of what a site carries, beside what they are for."""

from __future__ import annotations

from builder.data_files import licence_file, templates_folder

OWN_LICENCE = "assets/loombook.LICENSE.txt"
TYPEFACE = "barlow-semi-condensed"
"""The typeface that every page is set in, by the name of its files."""
TYPEFACE_LICENCE = f"assets/{TYPEFACE}.LICENSE.txt"


def licence_files() -> list[tuple[str, bytes]]:
    """Return relative path and text of each licence that a site carries."""
    typeface = templates_folder() / "theme" / "fonts" / f"{TYPEFACE}.LICENSE.txt"
    return [
        (TYPEFACE_LICENCE, typeface.read_bytes()),
        (OWN_LICENCE, licence_file().read_bytes()),
    ]

"""The licences of what a site carries, beside what they are for.

Their texts are those of the packages that are installed: a newer theme brings its newer text.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.metadata import distribution
from pathlib import Path

from builder.data_files import licence_file

THEME_PACKAGE = "mkdocs-material"
THEME_LICENCE = "assets/theme.LICENSE.txt"
OWN_LICENCE = "assets/loombook.LICENSE.txt"


def licence_files() -> list[tuple[str, bytes]]:
    """Return relative path and text of each licence that a site carries.

    Raises:
        RuntimeError: a package was installed without the text of its licence.
    """
    return [
        (THEME_LICENCE, licence_text(THEME_PACKAGE)),
        (OWN_LICENCE, licence_file().read_bytes()),
    ]


@lru_cache(maxsize=4)  # what is installed stays so while a process runs
def licence_text(package: str) -> bytes:
    """Return the licence that came with an installed package.

    Raises:
        RuntimeError: none came with it; without its licence nothing of it may be passed on.
    """
    listed = distribution(package).files or ()
    found = [file for file in listed if Path(file).name.upper().startswith(("LICENSE", "LICENCE"))]
    if not found:
        raise RuntimeError(f"{package} is installed without the text of its licence")
    return Path(str(found[0].locate())).read_bytes()

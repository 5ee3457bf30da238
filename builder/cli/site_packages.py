"""Whether the packages that make a site are installed: all other commands do without them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from urllib.parse import unquote, urlsplit

import click

_OURS = "loombook"
_OF_SITE = re.compile(r"""([\w.-]+).*;.*\bextra == ["']site["']""")


def need_site_packages() -> None:
    """Return where a site can be built; else exit with one line that says what to type."""
    try:
        ours = distribution(_OURS)
    except PackageNotFoundError:  # run from its source: what is missing is seen when it is loaded
        return
    missing = sorted(_missing(ours.requires or ()))
    if missing:
        wanted = requirement(ours)
        raise click.ClickException(
            f"a site needs {', '.join(missing)} as well; type: python -m pip install {wanted}"
        )


def _missing(requires: list[str] | tuple[()]) -> Iterator[str]:
    for name in (found[1] for need in requires if (found := _OF_SITE.match(need))):
        try:
            distribution(name)
        except PackageNotFoundError:
            yield name


def requirement(ours: Distribution) -> str:
    """Return what pip is given to install loombook with these packages, from where it came.

    A package index has it only when it came from one.
    Source: PEP 610 (direct_url.json) and PEP 508; from memory.
    """
    origin = json.loads(ours.read_text("direct_url.json") or "{}")
    if origin.get("dir_info", {}).get("editable"):
        return f'--editable "{unquote(urlsplit(origin["url"]).path)}[site]"'
    commit = origin.get("vcs_info", {})
    if commit:
        return f'"{_OURS}[site] @ {commit["vcs"]}+{origin["url"]}@{commit["commit_id"]}"'
    return f'"{_OURS}[site]{" @ " if origin else ""}{origin.get("url", "")}"'

"""Whether the packages of an extra are installed: all other commands do without them."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from typing import Final, Literal
from urllib.parse import unquote, urlsplit

import click

_OURS = "loombook"
Extra = Literal["site", "sound"]
_NEEDED_BY: Final[dict[Extra, str]] = {"site": "a site", "sound": "sound"}


def need_packages(extra: Extra) -> None:
    """Return where what an extra brings is there; else exit with one line that says what to type.

    `site` is for building and serving the site, `sound` for the test track and its recordings.
    """
    try:
        ours = distribution(_OURS)
    except PackageNotFoundError:  # run from its source: what is missing is seen when it is loaded
        return
    missing = sorted(_missing(ours.requires or (), extra))
    if missing:
        wanted = requirement(ours, extra)
        raise click.ClickException(
            f"{_NEEDED_BY[extra]} needs {', '.join(missing)} as well; "
            f"type: python -m pip install {wanted}"
        )


def _missing(requires: list[str] | tuple[()], extra: Extra) -> Iterator[str]:
    of_extra = re.compile(rf"""([\w.-]+).*;.*\bextra == ["']{extra}["']""")
    for name in (found[1] for need in requires if (found := of_extra.match(need))):
        try:
            distribution(name)
        except PackageNotFoundError:
            yield name


def requirement(ours: Distribution, extra: Extra) -> str:
    """Return what pip is given to install loombook with these packages, from where it came.

    A package index has it only when it came from one.
    Source: PEP 610 (direct_url.json) and PEP 508; from memory.
    """
    origin = json.loads(ours.read_text("direct_url.json") or "{}")
    if origin.get("dir_info", {}).get("editable"):
        return f'--editable "{unquote(urlsplit(origin["url"]).path)}[{extra}]"'
    commit = origin.get("vcs_info", {})
    if commit:
        return f'"{_OURS}[{extra}] @ {commit["vcs"]}+{origin["url"]}@{commit["commit_id"]}"'
    return f'"{_OURS}[{extra}]{" @ " if origin else ""}{origin.get("url", "")}"'

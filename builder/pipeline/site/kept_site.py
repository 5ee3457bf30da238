"""What a store keeps of a site beside its vehicles: its theme, and how its files stand."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

from builder.model.house_defaults import HouseDefaults
from builder.pipeline.checking.asked import sum_of
from builder.pipeline.checking.kept import Kept, as_line
from builder.rendering.shell import BuiltTheme, Shell, build_shell, build_theme, shell_of
from builder.rendering.standing_site import NO_SITE, StandingSite, noted_files
from builder.rendering.writing import WrittenFile, place_of
from builder.store import as_plain, reader_of, site_state

_theme = reader_of(BuiltTheme)


def kept_shell(kept: Kept, site_name: str, imprint: str, defaults: HouseDefaults) -> Shell:
    """Return the shell of a site, its theme built only where nothing is known of it.

    Raises:
        RuntimeError: the theme does not build.
    """
    if not kept.is_on:
        return build_shell(site_name, imprint, defaults)
    key = kept.key("theme", site_state(), site_name, imprint)
    rows = kept.find([key])
    if key in rows:
        return shell_of(_theme(json.loads(rows[key][0])), imprint)
    theme = build_theme(site_name, imprint, defaults)
    kept.keep(key, (), as_line(as_plain(theme)))
    return shell_of(theme, imprint)


def standing_site(kept: Kept, output: Path) -> StandingSite:
    """Return the site that stands at a place, with what was noted of its files."""
    if not kept.is_on:
        return NO_SITE
    place = place_of(output)
    key = _key_of(place)
    rows = kept.find([key])
    return StandingSite(place, json.loads(rows[key][0]) if key in rows else {})


def note_site(kept: Kept, output: Path, files: Iterable[WrittenFile]) -> None:
    """Note how the files of a site that has its place stand on the disk."""
    if kept.is_on:
        place = place_of(output)
        kept.keep(_key_of(place), (), as_line(dict(noted_files(place, files))))
        kept.write()


def _key_of(place: Path) -> str:
    return sum_of(("site", str(place.resolve())))

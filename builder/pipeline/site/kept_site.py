"""What a store keeps of a site beside its vehicles: its theme, and how its files stand."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.kept import Kept, as_line
from builder.pipeline.site.maker_pages import schema_refs
from builder.rendering.page import BuildInfo
from builder.rendering.shell import BuiltTheme, Shell, build_shell, build_theme, shell_of
from builder.rendering.standing_site import (
    NO_SITE,
    OnDisk,
    StandingSite,
    noted_files,
    settled_files,
)
from builder.rendering.writing import WrittenFile, place_of
from builder.store import as_plain, reader_of, site_state, sum_of

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
    kept.keep(key, {}, as_line(as_plain(theme)))
    return shell_of(theme, imprint)


class StandsNoted(NamedTuple):
    """What was noted of the site at a place: of which state it is, how many pages, each file."""

    state: str
    pages: int
    files: Mapping[str, Sequence[object]]


_NOTHING = StandsNoted("", 0, {})


def noted_site(kept: Kept, output: Path) -> StandsNoted:
    """Return what was noted of the site at a place when it was built."""
    key = _key_of(output)
    rows = kept.find([key]) if kept.is_on else {}
    return StandsNoted(*json.loads(rows[key][0])) if key in rows else _NOTHING


def standing_site(kept: Kept, output: Path, noted: StandsNoted) -> StandingSite:
    """Return the site that stands at a place."""
    return StandingSite(place_of(output), noted.files) if kept.is_on else NO_SITE


def stands_already(kept: Kept, output: Path, noted: StandsNoted, state: str) -> bool:
    """Whether the site at a place is of this state, with each file as it was written."""
    if not kept.is_on or state != noted.state:
        return False
    return standing_site(kept, output, noted).is_as_noted


def files_to_note(kept: Kept, folder: Path, files: Iterable[WrittenFile]) -> dict[str, OnDisk]:
    """Return what the disk says of the files of a new site that has no place yet."""
    return noted_files(folder, files) if kept.is_on else {}


def note_site(
    kept: Kept, output: Path, state: str, pages: int, files: Mapping[str, OnDisk]
) -> None:
    """Note how the files of a site that has its place stand on the disk, if they still do."""
    settled = settled_files(place_of(output), files) if kept.is_on else None
    if settled is not None:
        keep_note(kept, output, StandsNoted(state, pages, settled))
    kept.write()


def keep_note(kept: Kept, place: Path, noted: StandsNoted) -> None:
    """Keep what `noted_site` is to say of the site at a place."""
    kept.keep(_key_of(place), {}, as_line([*noted]))


def state_of_site(checked: CheckedBook, info: BuildInfo) -> str:
    """Return what differs whenever any byte of the site of a book may.

    Beside the book and what is said of it, a site rests on the schemas that lie near the book, and
    on photos, each of which the check has asked for.
    """
    said = repr(replace(info, private=frozenset()))
    told = (said, *sorted(info.private), repr(schema_refs(checked.book)))
    photos = repr(sorted(checked.kept.photos.items()))
    found = (repr(finding) for finding in checked.findings)  # a photo that is not there has one
    return checked.kept.key("site", site_state(), checked.book.digest, photos, *told, *found)


def _key_of(output: Path) -> str:
    return sum_of(("site", os.path.realpath(output)))

"""What a store keeps of a site beside its vehicles: its theme, and how its files stand."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.pipeline.checking.asked import sum_of
from builder.pipeline.checking.book_check import CheckedBook
from builder.pipeline.checking.kept import Kept, as_line
from builder.pipeline.site.maker_pages import schema_refs
from builder.rendering.page import BuildInfo
from builder.rendering.pages.left_out import LeftOut
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


def note_site(
    kept: Kept, output: Path, state: str, pages: int, files: Iterable[WrittenFile]
) -> None:
    """Note how the files of a site that has its place stand on the disk."""
    if kept.is_on:
        found = dict(noted_files(place_of(output), files))
        kept.keep(_key_of(output), (), as_line([state, pages, found]))
        kept.write()


def state_of_site(checked: CheckedBook, info: BuildInfo, left_out: Sequence[LeftOut]) -> str:
    """Return what differs whenever any byte of the site of a book may.

    Beside the book and what is said of it, a site rests on the schemas that lie near the book.
    """
    said = repr(replace(info, private=frozenset()))
    told = (said, *sorted(info.private), repr(left_out), repr(schema_refs(checked.book)))
    return checked.kept.key("site", site_state(), checked.book.digest, *told)


def _key_of(output: Path) -> str:
    return sum_of(("site", str(output.resolve())))

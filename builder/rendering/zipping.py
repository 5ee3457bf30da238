"""A site in one file, to be carried on a stick: the same site gives the same bytes."""

from __future__ import annotations

from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from builder.rendering.writing import MARK, NoPlaceError, for_everybody, place_of
from builder.unfinished import held_file

FOLDER = "loombook"
"""Everything stands in this one folder, so that unpacking scatters nothing."""
_EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The first date the format can hold. No clock is asked, so that two zips are the same."""
_PLAIN_FILE = 0o100644 << 16
_UNIX = 3


def write_zip(site: Path, target: Path) -> int:
    """Write the built site at `site` to `target`, whole or not at all; return its bytes.

    A zip that is there already is replaced in one step, where a link leads to it, too. What a
    killed run left beside it is removed.

    Raises:
        ValueError: `target` is a folder or would stand inside the site.
        OSError: it cannot be written; what was there stays.
    """
    refuse_place(site, target)
    place = place_of(target)
    with for_everybody():
        place.parent.mkdir(parents=True, exist_ok=True)
        with held_file(place.parent, f".{place.name}.loombook-new-") as unfinished:
            _fill(unfinished, site)
            unfinished.chmod(0o644)
            unfinished.replace(place)
    return place.stat().st_size


def refuse_place(site: Path, target: Path) -> None:
    """Raise ValueError when `target` can be no zip of the site at `site`; nothing is touched."""
    try:
        place_of(target)
    except NoPlaceError as error:
        raise ValueError(str(error)) from error
    if target.is_dir():
        raise ValueError(f"{target} is a folder: name the zip file, for example site.zip")
    if target.resolve().is_relative_to(site.resolve()):
        raise ValueError(f"{target} would stand inside the site: name a place outside {site}")


def _fill(archive: Path, site: Path) -> None:
    files = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    with ZipFile(archive, "w", ZIP_DEFLATED, compresslevel=6) as zipped:
        for name in sorted(files):
            if name != MARK:
                entry = ZipInfo(f"{FOLDER}/{name}", _EARLIEST)
                entry.create_system, entry.external_attr = _UNIX, _PLAIN_FILE
                entry.compress_type = ZIP_DEFLATED
                zipped.writestr(entry, files[name].read_bytes())

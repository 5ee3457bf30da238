"""The file that comes back from the bay: a sheet alone, or a .zip of a sheet and its photos."""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from builder.book import shown_path
from builder.editing.photo_bytes import NoPictureError, bare_jpeg
from builder.loading import FileTooLargeError, Loaded, load_file, load_text, read_bounded
from builder.model.photo_file import MOST_KEPT_BYTES

MOST_PHOTOS = 100
MOST_BYTES = 80_000_000
"""Of all that a .zip unpacks to: a visit's photos at the size that the phone gives them."""


class PhotoRefusedError(ValueError):
    """A photo that is not kept; says why."""


class NoSheetError(ValueError):
    """A .zip that holds no sheet that can be read; says why."""


@dataclass(frozen=True, slots=True)
class BayFile:
    """A loaded sheet and the photos that came with it, by name."""

    shown: str
    loaded: Loaded
    folder: Path
    packed: dict[str, bytes] = field(default_factory=dict)
    in_zip: bool = False

    def photo(self, name: str) -> bytes:
        """Return a photo without its metadata: from the .zip, or from beside the sheet.

        Raises:
            PhotoRefusedError: it is not there, too large, or no JPEG picture.
        """
        found = self.packed.get(name) if self.in_zip else _beside(self.folder / name)
        if found is None:
            raise PhotoRefusedError(f"{name} is not {'in the .zip' if self.in_zip else 'there'}")
        if len(found) > MOST_KEPT_BYTES:
            raise PhotoRefusedError(f"{name} has {len(found)} bytes, at most {MOST_KEPT_BYTES}")
        try:
            return bare_jpeg(found)
        except NoPictureError as error:
            raise PhotoRefusedError(f"{name}: {error}") from error


def bay_file(path: Path) -> BayFile:
    """Return what a file from the bay holds.

    Raises:
        NoSheetError: it is a .zip without one sheet, is damaged, or is too large.
        OSError: it cannot be read.
    """
    shown = shown_path(path)
    if not path.is_file() or not zipfile.is_zipfile(path):  # a pipe is not waited for
        return BayFile(shown, load_file(path, shown), path.parent)
    try:
        with zipfile.ZipFile(io.BytesIO(read_bounded(path, MOST_BYTES))) as package:
            packed = _unpacked(package)
    except FileTooLargeError as error:
        raise NoSheetError(f"{shown} has more than {MOST_BYTES} bytes") from error
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError) as error:
        raise NoSheetError(f"{shown} cannot be unpacked: {error}"[:200]) from error
    name = _only(each for each in packed if each.endswith((".yaml", ".yml")))
    if name is None:
        raise NoSheetError(f"{shown} holds no sheet, or several: one .yaml is wanted")
    inside = f"{shown}/{name}"
    return BayFile(inside, load_text(packed[name], inside), path.parent, packed, in_zip=True)


def _unpacked(package: zipfile.ZipFile) -> dict[str, bytes]:
    """Every member by its bare name; a folder in it means nothing."""
    parts = [part for part in package.infolist() if not part.is_dir()]
    if len(parts) > MOST_PHOTOS + 1 or sum(part.file_size for part in parts) > MOST_BYTES:
        raise NoSheetError(f"the .zip holds more than {MOST_PHOTOS} photos or {MOST_BYTES} bytes")
    return {part.filename.rpartition("/")[2]: package.read(part) for part in parts}


def _only(names: Iterable[str]) -> str | None:
    found = list(names)
    return found[0] if len(found) == 1 else None


def _beside(path: Path) -> bytes | None:
    """The photo's bytes; None where none lies there. What is too large is refused where it is."""
    try:
        return read_bounded(path, MOST_KEPT_BYTES)
    except FileTooLargeError as error:
        raise PhotoRefusedError(f"{path.name} has more than {MOST_KEPT_BYTES} bytes") from error
    except OSError:
        return None

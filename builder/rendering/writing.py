"""Writing a site: into a fresh folder beside the old one, swapped in whole or not at all."""

from __future__ import annotations

import ctypes
import glob
import hashlib
import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO, NamedTuple

from builder.unfinished import held_folder, is_held


class WrittenFile(NamedTuple):
    """A file of the site: where it stands, how many bytes it has, their SHA-256 in hexadecimal."""

    url: str
    size_bytes: int
    sha256: str


class NoPlaceError(FileExistsError):
    """What stands where the site was to go is not replaced by a build. Its text is a sentence."""


class AddressTakenError(Exception):
    """Two files of a site would stand at one address. Its text is a sentence."""

    @classmethod
    def at(cls, url: str) -> AddressTakenError:
        """Return the error for an address relative to the site."""
        return cls(f"two files of the site would stand at {url}; on many disks A and a are one")


@contextmanager
def fresh_site(site: Path) -> Iterator[Path]:
    """Yield an empty folder beside `site`; on success it takes the place of `site`.

    When the block raises, the new folder is removed and `site` stays as it was; what killed
    builds left beside it is removed first. A link is followed: what it leads to is replaced, the
    link stays. Every file and folder made in the block can be read by everybody, as a web server
    needs it.

    Raises:
        NoPlaceError: `site` is neither missing, nor empty, nor made by this tool, so that a
            mistyped path costs nobody a folder; or it is a link that leads nowhere.
    """
    with for_everybody():
        place = place_of(site)
        _refuse_foreign_folder(place)
        place.parent.mkdir(parents=True, exist_ok=True)
        put_back(place)
        with held_folder(place.parent, f".{place.name}{_NEW}") as fresh:
            fresh.chmod(0o755)
            (fresh / MARK).write_text("made by loombook; replaced whole at each build\n", "utf-8")
            yield fresh
            _swap_in(fresh, place)


MARK = ".loombook-site"
_NEW, _OLD = ".loombook-new-", ".loombook-old-"


@contextmanager
def for_everybody() -> Iterator[None]:
    """Let everybody read what is made meanwhile, and nobody else write it, whatever the umask.

    Of a whole process, since what makes the handbook's pages writes files of its own.
    """
    before = os.umask(0o022)
    try:
        yield
    finally:
        os.umask(before)


def place_of(output: Path) -> Path:
    """Where something is written that is to stand at `output`: a link leads there, and stays.

    Raises:
        NoPlaceError: the link leads nowhere, or in a circle.
    """
    if not output.is_symlink():
        return output
    try:
        return output.resolve(strict=True)
    except (OSError, RuntimeError) as error:
        leads = f"{output} is a link to {output.readlink()}, which is not there"
        raise NoPlaceError(f"{leads}: make that, or remove the link") from error


def _refuse_foreign_folder(site: Path) -> None:
    if not site.exists():
        return
    if not site.is_dir():
        raise NoPlaceError(f"{site} is a file, not a folder")
    if not (site / MARK).exists() and any(site.iterdir()):
        raise NoPlaceError(f"{site} was not made by loombook and is not empty")


def put_back(site: Path) -> None:
    """Put the old site back, when a build was killed between taking it away and the new one."""
    if site.exists():
        return
    for old in sorted(site.parent.glob(f".{glob.escape(site.name)}{_OLD}*")):
        if not is_held(old):
            with suppress(OSError):
                (old / "site").rename(site)
                old.rmdir()
                return


def _swap_in(fresh: Path, site: Path) -> None:
    """Put `fresh` in the place of `site`, in one step where the system has such a step.

    The old site is then at `fresh`, for the caller to remove.
    """
    if not site.exists():
        fresh.rename(site)
    elif not exchange(fresh, site):
        _swap_in_two_steps(fresh, site)


def _swap_in_two_steps(fresh: Path, site: Path) -> None:
    """Rename old out and new in; put the old one back if the second rename fails."""
    with held_folder(site.parent, f".{site.name}{_OLD}") as old:
        site.rename(old / "site")
        try:
            fresh.rename(site)
        except OSError:
            (old / "site").rename(site)
            raise


_HERE = -100  # AT_FDCWD of Linux: paths are meant from the working folder
_EXCHANGE = 2  # RENAME_EXCHANGE of Linux, RENAME_SWAP of macOS


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change names at once, so that neither name is ever missing.

    False when system or disk has no such step; then nothing has happened.
    """
    first, second = os.fsencode(one), os.fsencode(other)
    try:
        system = ctypes.CDLL(None)
        if hasattr(system, "renameat2"):
            return bool(system.renameat2(_HERE, first, _HERE, second, _EXCHANGE) == 0)
        return bool(system.renamex_np(first, second, _EXCHANGE) == 0)
    except (AttributeError, OSError, TypeError):
        return False


def make_folders(folder: Path, urls: Iterable[str]) -> None:
    """Make every folder that `urls` need, once, so that writing a page makes none."""
    for parent in sorted({url.rpartition("/")[0] for url in urls}):
        (folder / parent).mkdir(parents=True, exist_ok=True)


Taken = Callable[[WrittenFile], bool]
"""Whether a file was taken over from the site that stands, so that it need not be written."""


def write_text(folder: Path, url: str, text: str, taken: Taken = lambda file: False) -> WrittenFile:
    """Write `text` as UTF-8 with plain newlines at `url` under `folder`, whose folder exists."""
    return _write_bytes(folder, url, text.encode(), taken)


def write_files(
    folder: Path, files: Iterable[tuple[str, bytes]], taken: Taken = lambda file: False
) -> list[WrittenFile]:
    """Write files given as (relative path, content), making their folders."""
    written = []
    for url, content in files:
        (folder / url).parent.mkdir(parents=True, exist_ok=True)
        written.append(_write_bytes(folder, url, content, taken))
    return written


def new_file(folder: Path, url: str) -> BinaryIO:
    """Open a file of the site to write, where none is yet.

    Raises:
        AddressTakenError: there is one at this address, as the disk compares addresses.
    """
    try:
        return (folder / url).open("xb")
    except FileExistsError as error:
        raise AddressTakenError.at(url) from error


def _write_bytes(folder: Path, url: str, content: bytes, taken: Taken) -> WrittenFile:
    file = WrittenFile(url, len(content), hashlib.sha256(content).hexdigest())
    if not taken(file):
        with new_file(folder, url) as stream:
            stream.write(content)
    return file

"""The site that stands where a new one goes: what it has of the new one is taken over as it is.

A file is known by the sum of its content. What was noted of it on the disk when it was written
spares reading it again: size, both times and number. Whatever writes to a file moves `ctime`, which
nobody can set, so one that was changed by hand is read, found to be another and made anew.

Taken over is a hard link: no byte is written, nothing of the file changes, and the site that stands
stays whole until the new one has its place. Where a disk has no such links, files are made anew.
"""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from builder.rendering.writing import MARK, WrittenFile


class OnDisk(NamedTuple):
    """What was noted of a file of a site: what the disk says of it, and the sum of its content."""

    size_bytes: int
    mtime_ns: int
    ctime_ns: int
    number: int
    sha256: str


class StandingSite:
    """The files at `folder`, of which these were noted by their URLs."""

    def __init__(self, folder: Path | None, noted: Mapping[str, Sequence[object]]) -> None:
        there = folder is not None and (folder / MARK).is_file()
        self._folder = str(folder) if there else ""
        self._noted = noted

    def take(self, files: Iterable[WrittenFile], into: Path) -> bool:
        """Take over all of these files, or none; False when one is not there as it was."""
        taken: list[WrittenFile] = []
        for file in files:
            if not self._folder or not self._take(file, into):
                for each in taken:
                    (into / each.url).unlink()
                return False
            taken.append(file)
        return True

    @property
    def is_as_noted(self) -> bool:
        """Whether it has just the files that were noted, each as it was."""
        if not self._folder:
            return False
        try:
            there = {MARK, *self._noted} == {*files_in(self._folder)}
            return there and all(
                stands_as_noted(self._folder, *each) for each in self._noted.items()
            )
        except OSError:  # another build took it away meanwhile
            return False

    def _take(self, file: WrittenFile, into: Path) -> bool:
        old, new = f"{self._folder}/{file.url}", f"{into}/{file.url}"
        try:
            before = os.lstat(old)
            if not self._is_still(file, old, before):
                return False
            os.link(old, new, follow_symlinks=False)
            if _told(before) == _told(os.lstat(new)):
                return True
            os.unlink(new)  # noqa: PTH108 - as fast as the link was made
        except (OSError, NotImplementedError):
            pass
        return False

    def _is_still(self, file: WrittenFile, place: str, about: os.stat_result) -> bool:
        if not stat.S_ISREG(about.st_mode) or not about.st_mode & stat.S_IROTH:
            return False
        if (*self._noted.get(file.url, ()),) == _on_disk(about, file.sha256):
            return True
        return about.st_size == file.size_bytes and _sum_of(place) == file.sha256


NO_SITE = StandingSite(None, {})
"""Where nothing is taken over."""


def noted_files(folder: Path, files: Iterable[WrittenFile]) -> dict[str, OnDisk]:
    """Return what the disk says of the files of a new site that has no place yet."""
    return {each.url: _on_disk(os.lstat(f"{folder}/{each.url}"), each.sha256) for each in files}


def settled_files(place: Path, noted: Mapping[str, OnDisk]) -> dict[str, OnDisk] | None:
    """Return the same when the site has its place and what was linked has no second name any more.

    None where another build has put its own site there meanwhile: what the disk says is of those
    files then, and the sums are of ours.
    """
    settled = {}
    for url, before in noted.items():
        try:
            after = _on_disk(os.lstat(f"{place}/{url}"), before.sha256)
        except OSError:
            return None
        if after._replace(ctime_ns=before.ctime_ns) != before:
            return None
        settled[url] = after
    return settled


def stands_as_noted(folder: str, url: str, noted: Sequence[object]) -> bool:
    """Whether the file at a URL is just as it was noted: a regular one, and not written since."""
    about, told = os.lstat(f"{folder}/{url}"), OnDisk(*noted)  # type: ignore[arg-type]
    return stat.S_ISREG(about.st_mode) and _on_disk(about, told.sha256) == told


def files_in(folder: str, under: str = "") -> Iterator[str]:
    """Yield the URLs of all that is below a folder and is no folder itself; no link is followed."""
    with os.scandir(folder) as found:
        for entry in found:
            if entry.is_dir(follow_symlinks=False):
                yield from files_in(entry.path, f"{under}{entry.name}/")
            else:
                yield f"{under}{entry.name}"


def _on_disk(about: os.stat_result, sha256: str) -> OnDisk:
    return OnDisk(about.st_size, about.st_mtime_ns, about.st_ctime_ns, about.st_ino, sha256)


def _told(about: os.stat_result) -> tuple[int, ...]:
    """What a link leaves as it was."""
    return about.st_dev, about.st_ino, about.st_size, about.st_mtime_ns


def _sum_of(place: str) -> str:
    with open(place, "rb") as file:  # noqa: PTH123 - one of many thousands
        return hashlib.file_digest(file, "sha256").hexdigest()

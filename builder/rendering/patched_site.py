"""A site that one process alone writes and shows: an edit replaces the files that differ.

What a build swaps in whole takes a step for each file of the site, be it one car or ten thousand.
Here the other files stay where they are, and nobody else changes them: the folder is this process's
own for as long as it works. Each file is replaced in one step; a page may for a moment stand beside
data of the build before, and is loaded again when the last file has its place.

Such a site may be kept beside a store for the next process (`KeptFolder`), which takes up the files
that stand as they were noted and removes whatever else is there: what a killed process had put in
its place, what was changed by hand, what somebody brought along. So what is kept is never believed,
and no file of it is shown before it is known that it is one of the site of the book as it is.
"""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from builder.rendering.standing_site import OnDisk, files_in, noted_files, stands_as_noted
from builder.rendering.writing import WrittenFile, for_everybody, make_folders
from builder.store.kept_folder import KeptFolder
from builder.unfinished import held_folder

MOST_SITE_BYTES = 2_000_000_000
"""The most that a site takes of a disk between two processes: chosen by this project. A thousand
generated cars take 0.55 GB, and a larger site is made anew."""


class PatchedSite:
    """The files at `folder`, of which nothing is known before the first `take_up`."""

    def __init__(self, folder: Path, kept: KeptFolder | None = None) -> None:
        self.folder = folder
        self._kept = kept
        self._files: dict[str, OnDisk] | None = None
        self._is_noted = True

    @property
    def is_known(self) -> bool:
        """Whether it is known which files it has, and its folder is still at its place."""
        return self._files is not None and (self._kept is None or self._kept.is_held)

    @property
    def size_bytes(self) -> int:
        """What its files hold."""
        return sum(file.size_bytes for file in (self._files or {}).values())

    @property
    def is_kept(self) -> bool:
        """Whether the next process may find it."""
        return self._kept is not None and self.is_known and self.size_bytes <= MOST_SITE_BYTES

    @property
    def is_to_note(self) -> bool:
        """Whether the next process may find it and nothing says yet how its files stand."""
        return self.is_kept and not self._is_noted

    @property
    def on_disk(self) -> Mapping[str, OnDisk]:
        """What the disk says of its files, by their URLs."""
        return self._files or {}

    def take_up(self, noted: Mapping[str, Sequence[object]]) -> bool:
        """Let it be those files that stand as they were noted; whether they are all, and no others.

        Raises:
            OSError: another process has the folder now, or it cannot be read or written.
        """
        if self._kept is not None and not self._kept.hold():
            raise OSError(errno.EBUSY, "another serve has the folder, or it is not to be written")
        there = list(files_in(str(self.folder))) if self.folder.is_dir() else []
        standing = {
            url: OnDisk(*noted[url])  # type: ignore[arg-type]
            for url in there
            if url in noted and stands_as_noted(str(self.folder), url, noted[url])
        }
        for url in there:
            if url not in standing:
                (self.folder / url).unlink()
        _remove_empty_folders(self.folder)
        self._files = standing
        return len(standing) == len(noted) == len(there)

    def take(self, files: Iterable[WrittenFile], into: Path) -> bool:
        """Whether all of these files are there already: then they stay."""
        return all(self._has(file) for file in files)

    def _has(self, file: WrittenFile) -> bool:
        there = self._files and self._files.get(file.url)
        return bool(there) and there.sha256 == file.sha256  # type: ignore[union-attr]

    def is_noted_now(self) -> None:
        """Remember that the store says how its files stand."""
        self._is_noted = True

    @contextmanager
    def fresh(self) -> Iterator[Path]:
        """Yield an empty folder for the files that are not there, gone afterwards."""
        with for_everybody(), held_folder(self.folder.parent, f".{self.folder.name}-new-") as fresh:
            yield fresh

    def put(self, files: Sequence[WrittenFile], fresh: Path) -> None:
        """Let the site be these files; those that are not there yet are in `fresh`.

        Raises:
            OSError: one cannot be put; what is there is known again by the next `take_up`.
        """
        new = [file for file in files if not self._has(file)]
        before, self._files, self._is_noted = self._files or {}, None, False
        make_folders(self.folder, [file.url for file in new])
        for file in new:
            os.replace(fresh / file.url, self.folder / file.url)  # noqa: PTH105 - one of thousands
        now = {file.url for file in files}
        for url in before.keys() - now:
            (self.folder / url).unlink(missing_ok=True)
        stayed = {url: told for url, told in before.items() if url in now}
        self._files = stayed | noted_files(self.folder, new)

    def end(self) -> None:
        """Let the next process have it; what is too large for that is removed."""
        if self._kept is None:
            return
        if self._kept.is_held and self.is_known and not self.is_kept:
            shutil.rmtree(self.folder, ignore_errors=True)
        self._kept.end()


def _remove_empty_folders(folder: Path) -> None:
    """Where a folder stands that has no file any more, a file may be put."""
    for place, _, _ in os.walk(folder, topdown=False):
        if place != str(folder):
            with suppress(OSError):
                Path(place).rmdir()

"""A site that one process alone writes and shows: an edit replaces the files that differ.

What a build swaps in whole takes a step for each file of the site, be it one car or ten thousand.
Here the other files stay where they are, and nobody else can have changed them: the folder is this
process's own, and is gone with it. Each file is replaced in one step; a page may for a moment stand
beside data of the build before, and is loaded again when the last file has its place.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from builder.rendering.writing import WrittenFile, for_everybody, make_folders
from builder.unfinished import held_folder


class PatchedSite:
    """The files at `folder`, which is not there yet or was written by this object."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._sums: dict[str, str] = {}

    def take(self, files: Iterable[WrittenFile], into: Path) -> bool:
        """Whether all of these files are there already: then they stay."""
        return all(self._sums.get(file.url) == file.sha256 for file in files)

    @contextmanager
    def fresh(self) -> Iterator[Path]:
        """Yield an empty folder for the files that are not there, gone afterwards."""
        with for_everybody(), held_folder(self.folder.parent, f".{self.folder.name}-new-") as fresh:
            yield fresh

    def put(self, files: Iterable[WrittenFile], fresh: Path) -> None:
        """Let the site be these files; those that are not there yet are in `fresh`.

        Raises:
            OSError: one cannot be put; the next time each is put anew.
        """
        before, self._sums = self._sums, {}
        now = {file.url: file.sha256 for file in files}
        new = [url for url, told in now.items() if before.get(url) != told]
        make_folders(self.folder, new)
        for url in new:
            os.replace(fresh / url, self.folder / url)  # noqa: PTH105 - one of thousands
        for url in before.keys() - now.keys():
            (self.folder / url).unlink(missing_ok=True)
        self._sums = now

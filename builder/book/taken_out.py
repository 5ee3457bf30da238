"""Files of a git commit, taken out of it into a folder; no link and no other repository is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from builder.book.revisions import git_output
from builder.loading import LARGEST_FILE_BYTES

_PLAIN_FILES = (b"100644", b"100755")
_TOO_LARGE = b"#" * (LARGEST_FILE_BYTES + 1)
"""Stands for a file that is no record because of its size: it is refused for that again."""


class _Entry(NamedTuple):
    blob: bytes
    size: int
    name: str


def take_out(top: Path, commit: str, then: Path, wanted: Callable[[str], bool]) -> None:
    """Write those files of a commit under `then` whose name, with slashes, is wanted.

    `top` is a working tree or a bare repository.

    Raises:
        NoSuchRevisionError: git cannot read it.
        OSError: a file cannot be written.
    """
    entries = [entry for entry in _listed(top, commit) if wanted(entry.name)]
    small = [entry for entry in entries if entry.size <= LARGEST_FILE_BYTES]
    contents = dict(zip(small, _blobs(top, [entry.blob for entry in small]), strict=True))
    for entry in entries:
        place = then / entry.name
        if ".." not in place.parts:
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(contents.get(entry, _TOO_LARGE))


def _listed(top: Path, commit: str) -> Iterator[_Entry]:
    listed = git_output(top, "ls-tree", "-r", "-z", "-l", "--full-tree", commit).split(b"\0")
    for line in filter(None, listed):
        about, name = line.split(b"\t", 1)
        mode, _, blob, size = about.split()
        if mode in _PLAIN_FILES:
            yield _Entry(blob, int(size), name.decode("utf-8", "surrogateescape"))


def _blobs(top: Path, names: Sequence[bytes]) -> Iterator[bytes]:
    """Yield the contents of blobs, read in one go: `<name> blob <size>`, line end, content."""
    output = git_output(top, "cat-file", "--batch", given=b"".join(name + b"\n" for name in names))
    at = 0
    for _ in names:
        end = output.index(b"\n", at)
        size = int(output[at:end].split()[2])
        yield output[end + 1 : end + 1 + size]
        at = end + 1 + size + 1

"""Writing a site: into a fresh folder beside the old one, swapped in whole or not at all."""

from __future__ import annotations

import ctypes
import hashlib
import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple


class WrittenFile(NamedTuple):
    """A file of the site: where it stands, how many bytes it has, their SHA-256 in hexadecimal."""

    url: str
    size_bytes: int
    sha256: str


@contextmanager
def fresh_site(site: Path) -> Iterator[Path]:
    """Yield an empty folder beside `site`; on success it takes the place of `site`.

    When the block raises, the new folder is removed and `site` stays as it was. `site` is
    replaced only if it is missing, empty, or was made by this tool: FileExistsError
    otherwise, so that a mistyped path costs nobody a folder.
    """
    _refuse_foreign_folder(site)
    site.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{site.name}-new-", dir=site.parent))
    try:
        fresh.chmod(0o755)
        (fresh / MARK).write_text("made by loombook; replaced whole at each build\n", "utf-8")
        yield fresh
        _swap_in(fresh, site)
    except BaseException:
        shutil.rmtree(fresh, ignore_errors=True)
        raise


MARK = ".loombook-site"


def _refuse_foreign_folder(site: Path) -> None:
    if not site.exists():
        return
    if not site.is_dir():
        raise FileExistsError(f"{site} is a file, not a folder")
    if not (site / MARK).exists() and any(site.iterdir()):
        raise FileExistsError(f"{site} was not made by loombook and is not empty")


def _swap_in(fresh: Path, site: Path) -> None:
    """Put `fresh` in the place of `site`, in one step where the system has such a step."""
    if not site.exists():
        fresh.rename(site)
    elif exchange(fresh, site):
        shutil.rmtree(fresh, ignore_errors=True)
    else:
        _swap_in_two_steps(fresh, site)


def _swap_in_two_steps(fresh: Path, site: Path) -> None:
    """Rename old out and new in; put the old one back if the second rename fails."""
    old = Path(tempfile.mkdtemp(prefix=f".{site.name}-old-", dir=site.parent))
    site.rename(old / "site")
    try:
        fresh.rename(site)
    except OSError:
        (old / "site").rename(site)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)


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


def write_text(folder: Path, url: str, text: str) -> WrittenFile:
    """Write `text` as UTF-8 with plain newlines at `url` under `folder`, whose folder exists."""
    return _write_bytes(folder, url, text.encode())


def write_files(folder: Path, files: Iterable[tuple[str, bytes]]) -> list[WrittenFile]:
    """Write files given as (relative path, content), making their folders."""
    written = []
    for url, content in files:
        (folder / url).parent.mkdir(parents=True, exist_ok=True)
        written.append(_write_bytes(folder, url, content))
    return written


def _write_bytes(folder: Path, url: str, content: bytes) -> WrittenFile:
    (folder / url).write_bytes(content)
    return WrittenFile(url, len(content), hashlib.sha256(content).hexdigest())

"""Writing a site: into a fresh folder beside the old one, swapped in whole or not at all."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path


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
    """Rename old out and new in; put the old one back if the second rename fails."""
    if not site.exists():
        fresh.rename(site)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{site.name}-old-", dir=site.parent))
    site.rename(old / "site")
    try:
        fresh.rename(site)
    except OSError:
        (old / "site").rename(site)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)


def make_folders(folder: Path, urls: Iterable[str]) -> None:
    """Make every folder that `urls` need, once, so that writing a page makes none."""
    for parent in sorted({url.rpartition("/")[0] for url in urls}):
        (folder / parent).mkdir(parents=True, exist_ok=True)


def write_text(folder: Path, url: str, text: str) -> None:
    """Write `text` as UTF-8 with plain newlines at `url` under `folder`, whose folder exists."""
    (folder / url).write_bytes(text.encode())


def write_files(folder: Path, files: Iterable[tuple[str, bytes]]) -> None:
    """Write files given as (relative path, content), making their folders."""
    for url, content in files:
        place = folder / url
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(content)

"""What a phone keeps for use without a signal, and the worker that keeps it whole.

The set is bounded by a rule and not by luck: the shared files always; the pages of cars too, as
long as the whole stays under `AUTOMATIC_BYTES`; in a larger book those a person opens, or all of
them on demand. Every file is named with the sum of its content, so that the worker can tell a
file of this build from one of another.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

from builder.rendering import missing
from builder.rendering.page import BuildInfo, Page
from builder.rendering.templates import fill
from builder.rendering.writing import WrittenFile

AUTOMATIC_BYTES = 32_000_000
"""Up to here the whole set is saved without being asked. Chosen by this project."""
MOST_OPENED = 300
"""Pages of cars kept because they were opened; the oldest goes first. Chosen by this project."""
WORKER_URL = "worker.js"
LIST_URL = "offline-files.json"
PAGE_URL = "handbook/offline.html"
NOT_SAVED_URL = "not-saved.html"
MANIFEST_URL = "manifest.webmanifest"
_LIST: Final = "index.html"  # of a folder; no car stands in it alone
CAR_FOLDERS = frozenset({"vehicles", "plans", "jobs", "comebacks", "photos"})
LEFT_OUT = frozenset({"data", "rules", "schema", missing.URL})
_SUM_LETTERS = 32


@dataclass(frozen=True, slots=True)
class OfflineSet:
    """The files to be kept: `shared` by every visitor, `cars` by rule. Sizes before compression."""

    shared: tuple[WrittenFile, ...]
    cars: tuple[WrittenFile, ...]

    @property
    def shared_bytes(self) -> int:
        """Size of the shared files."""
        return sum(file.size_bytes for file in self.shared)

    @property
    def whole_bytes(self) -> int:
        """Size of everything."""
        return self.shared_bytes + sum(file.size_bytes for file in self.cars)

    @property
    def whole_at_once(self) -> bool:
        """Whether everything is saved at the first visit."""
        return self.whole_bytes <= AUTOMATIC_BYTES

    def with_shared(self, file: WrittenFile) -> OfflineSet:
        """The same set with one shared file more."""
        return OfflineSet(tuple(sorted((*self.shared, file))), self.cars)

    def by_folder(self) -> list[tuple[str, int, int]]:
        """Folder, number of files and bytes of each part of the set; "" is the site's root."""
        folders: dict[str, list[int]] = {}
        for file in (*self.shared, *self.cars):
            folders.setdefault(file.url.rpartition("/")[0], []).append(file.size_bytes)
        return [(folder, len(sizes), sum(sizes)) for folder, sizes in sorted(folders.items())]


def offline_set(files: Iterable[WrittenFile]) -> OfflineSet:
    """Choose from all files of a site what is kept; the list pages of a folder are shared."""
    kept = sorted(file for file in files if file.url.partition("/")[0] not in LEFT_OUT)
    cars = tuple(file for file in kept if _is_of_a_car(file.url))
    return OfflineSet(tuple(file for file in kept if not _is_of_a_car(file.url)), cars)


def _is_of_a_car(url: str) -> bool:
    folder, _, name = url.partition("/")
    return folder in CAR_FOLDERS and name != _LIST


def offline_page(found: OfflineSet, info: BuildInfo) -> Page:
    """Return the page that states the set, its size and its rule."""
    body = fill(
        "offline.html",
        info=info,
        folders=[(folder, count, megabytes(size)) for folder, count, size in found.by_folder()],
        files=len(found.shared) + len(found.cars),
        whole=megabytes(found.whole_bytes),
        shared=megabytes(found.shared_bytes),
        limit=megabytes(AUTOMATIC_BYTES),
        most_opened=MOST_OPENED,
        at_once=found.whole_at_once,
    )
    what = "What this site keeps on a phone for work without a signal, and how much room it takes."
    return Page(PAGE_URL, "Without a signal", what, body)


def not_saved_page(info: BuildInfo) -> Page:
    """Return the page that stands in for one that is neither saved nor to be had."""
    body = fill("not_saved.html", info=info)
    return Page(NOT_SAVED_URL, "Not saved", "This page is not saved on this device.", body)


def megabytes(size_bytes: int) -> str:
    """A size for a person, of which the last figure is rounded up."""
    return f"{-(-size_bytes // 100_000) / 10:.1f} MB"


def offline_files(
    found: OfflineSet, worker: str, info: BuildInfo
) -> tuple[tuple[str, bytes], tuple[str, bytes]]:
    """Return the list of the set and the worker, each as (relative path, content).

    `worker` is the text of the worker; it is given the sums of this build. Its bytes change with
    any file of the set, which is what makes a browser fetch the new set.
    """
    listed = json.dumps(
        {"shared": _sums(found.shared), "cars": _sums(found.cars)}, separators=(",", ":")
    )
    about = {
        "version": sha256((listed + worker).encode()).hexdigest()[:16],
        "list": LIST_URL,
        "list_sum": sha256(listed.encode()).hexdigest()[:_SUM_LETTERS],
        "not_saved": NOT_SAVED_URL,
        "data_of": info.as_of,
        "whole_at_once": found.whole_at_once,
        "whole": megabytes(found.whole_bytes),
        "cars": len(found.cars),
        "most_opened": MOST_OPENED,
    }
    text = f"const BOOK = {json.dumps(about, sort_keys=True)};\n{worker}"
    return (LIST_URL, listed.encode()), (WORKER_URL, text.encode())


def _sums(files: Iterable[WrittenFile]) -> Mapping[str, str]:
    return {file.url: file.sha256[:_SUM_LETTERS] for file in files}


def manifest(info: BuildInfo) -> tuple[str, bytes]:
    """Return what lets a phone put the site on its home screen, where its storage is kept."""
    content = {
        "name": info.site_name,
        "short_name": info.site_name[:12].strip(),
        "start_url": _LIST,
        "scope": "./",
        "display": "standalone",
        "icons": [{"src": "assets/mark.svg", "type": "image/svg+xml", "sizes": "any"}],
    }
    return MANIFEST_URL, (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode()

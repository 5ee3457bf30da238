"""Where the site that `loombook serve` shows stands: beside the store of the book, or for once."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from builder.book import shown_path
from builder.rendering.patched_site import MOST_SITE_BYTES, PatchedSite
from builder.store import Store
from builder.store.kept_folder import KeptFolder
from builder.unfinished import work_folder

FOLDER_NAME = "served"
"""In the folder of the store."""


@contextmanager
def served_site(store: Store) -> Iterator[PatchedSite]:
    """Yield the site that is kept beside a store, which the next process takes up.

    Without a store, and where its folder cannot be held, one that is gone afterwards.
    """
    kept = KeptFolder(store.folder / FOLDER_NAME) if store.folder else None
    if kept is None or not kept.hold():
        with work_folder() as folder:
            yield PatchedSite(folder / "site")
        return
    site = PatchedSite(kept.place, kept)
    try:
        yield site
    finally:
        site.end()


def kept_words(store: Store, site: PatchedSite) -> Iterator[str]:
    """Yield what is kept of a site, how large it is and may be; or why nothing is."""
    most, taken = f"{MOST_SITE_BYTES / 1e6:.0f} MB", f"{site.size_bytes / 1e6:.1f} MB"
    if site.is_kept:
        yield f"kept for the next start: {taken} of at most {most} in {shown_path(site.folder)}"
    elif store.folder and site.folder.parent != store.folder:
        place = shown_path(store.folder / FOLDER_NAME)
        yield f"made for this time: another serve has {place}, or it cannot be held"
    elif store.is_kept and site.is_known:
        yield f"made for this time: {taken} is more than the {most} that are kept"

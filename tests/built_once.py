"""Sites that many tests read and none writes, built once for all workers of a run."""

from __future__ import annotations

import fcntl
from pathlib import Path

import pytest
from shipped_book import loombook


def built_once(factory: pytest.TempPathFactory, name: str, book: Path) -> Path:
    """The site of a book, built by whoever asks first; `name` tells it from other sites."""
    own = factory.getbasetemp()
    shared = own.parent if own.name.startswith("popen-") else own
    site = shared / name / "site"
    site.parent.mkdir(exist_ok=True)
    with (shared / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not site.exists():
            done = loombook("build", book, "--output", site)
            assert done.exit_code == 0, done.output
    return site

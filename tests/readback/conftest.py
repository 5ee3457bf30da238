"""The shipped book, built once."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def site(shipped_site: Path) -> Path:
    return shipped_site

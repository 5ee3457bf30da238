"""The shipped book, built once."""

from __future__ import annotations

from pathlib import Path

import pytest
from shipped_book import PINOUTS, loombook


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("read back") / "site"
    done = loombook("build", PINOUTS, "--output", folder)
    assert done.exit_code == 0, done.output
    return folder

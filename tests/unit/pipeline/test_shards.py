"""Shards of a book, each built by itself, joined to the bytes of a whole build."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

sys.path[:0] = [str(Path(__file__).resolve().parents[2] / "benchmarks")]

from shards import simulate  # noqa: E402


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="needs wait4 and links")
def test_two_shards_joined_are_the_whole_book(tmp_path: Path) -> None:
    """A finding between two makers crosses; nothing else of a car is looked at or written anew."""
    result = simulate(tmp_path, 6, 2)
    assert result.faults == []
    assert len(result.lines) == 5

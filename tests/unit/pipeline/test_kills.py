"""The short form of `tests/long/kills.py`: few kills of each command, at random moments."""

from __future__ import annotations

import os
import random
import sys
from pathlib import Path

import pytest

sys.path.append(str(Path(__file__).resolve().parents[2] / "long"))
from kills import COMMANDS, kill_runs, state_of

KILLS = 2


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL")
@pytest.mark.parametrize("name", COMMANDS)
def test_a_kill_leaves_old_or_new_and_the_next_run_clears_up(tmp_path: Path, name: str) -> None:
    home = tmp_path / "home"
    home.mkdir()
    count = kill_runs(name, KILLS, random.Random(5), home)
    assert count.faults == []
    assert len(count.kills) == KILLS and any(kill.met for kill in count.kills)


def test_what_is_neither_old_nor_new_is_told_apart() -> None:
    old, new = {"a": b"1", "b": b"1", "site/x": b"1"}, {"a": b"2", "b": b"2", "site/x": b"2"}
    assert state_of(old, old, new) == "old"
    assert state_of(new, old, new) == "new"
    assert state_of({**old, "a": b"2"}, old, new) == "between"
    assert state_of({**old, "a": b""}, old, new) == "half"
    assert state_of({**old, "site/y": b"2"}, old, {**new, "site/y": b"2"}) == "half"
    assert state_of({"a": b"1"}, old, new) == "half"

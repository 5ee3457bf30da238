"""The cyclic collector is off while a command works: what is left in cycles is little."""

from __future__ import annotations

import gc
import shutil
import weakref
from collections.abc import Iterator
from pathlib import Path

import pytest
from shipped_book import PINOUTS

from builder.book import open_book
from builder.cli import watching
from builder.pipeline.checking.book_check import check_book
from builder.pipeline.site.building import build_site

A_CAR_MAY_LEAVE = 20
"""Objects; a car makes some hundred thousand."""


@pytest.fixture(autouse=True)
def uncollected() -> Iterator[None]:
    was = gc.isenabled()
    gc.disable()
    yield
    gc.unfreeze()
    if was:
        gc.enable()


def left_in_cycles(book: Path, output: Path) -> int:
    """How many objects a check and a build leave that only the collector would find."""
    gc.collect()
    build_site(check_book(open_book(book)), output)
    return gc.collect()


def test_what_is_left_in_cycles_does_not_grow_with_the_book(
    small_book: Path, tmp_path: Path
) -> None:
    site = tmp_path / "site"
    left_in_cycles(small_book, site)  # templates are made once a process, and leave some
    few = left_in_cycles(small_book, site)
    cars = len([*(small_book / "vehicles").rglob("*.yaml")])
    shutil.copytree(PINOUTS / "vehicles", small_book / "vehicles", dirs_exist_ok=True)
    shutil.copytree(PINOUTS / "visits", small_book / "visits", dirs_exist_ok=True)
    for kind in ("housings", "contributors", "looms"):
        shutil.copytree(PINOUTS / kind, small_book / kind, dirs_exist_ok=True)
    more = len([*(small_book / "vehicles").rglob("*.yaml")]) - cars
    assert more > 10
    assert left_in_cycles(small_book, site) <= few + A_CAR_MAY_LEAVE * more


class Left:
    """What only the collector finds."""

    def __init__(self) -> None:
        self.itself = self


def test_what_looks_leave_is_thrown_away_when_it_is_much(monkeypatch: pytest.MonkeyPatch) -> None:
    left = weakref.ref(Left())
    monkeypatch.setattr(watching, "MOST_UNCOLLECTED", 1 << 40)
    watching._collect_in_peace()
    assert left() is not None
    monkeypatch.setattr(watching, "MOST_UNCOLLECTED", -1)
    frozen = gc.get_freeze_count()
    watching._collect_in_peace()
    assert left() is None
    assert gc.get_freeze_count() > frozen

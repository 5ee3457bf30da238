"""The state of the tool: another one after each change of what works here."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from builder import LOADED_NS
from builder.store import tool_state


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A package of one module, saved long before it was loaded."""
    import sys

    module = sys.modules["builder.store.tool_state"]
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "one.py").write_text("x = 1\n", "utf-8")
    (tmp_path / "rules" / ".#one.py").symlink_to("nowhere")
    monkeypatch.setattr(module, "_package", str(tmp_path / "__init__.py"))
    monkeypatch.setattr(module, "LOADED_NS", 1 << 62)
    yield tmp_path
    tool_state.cache_clear()


def now() -> str:
    tool_state.cache_clear()
    return tool_state()


def saved(package: Path) -> None:
    (package / "rules" / "one.py").write_text("x = 2\n", "utf-8")


def added(package: Path) -> None:
    (package / "rules" / "two.py").write_text("", "utf-8")


def removed(package: Path) -> None:
    (package / "rules" / "one.py").unlink()


@pytest.mark.parametrize("change", [saved, added, removed])
def test_each_change_is_another_state(package: Path, change: Callable[[Path], None]) -> None:
    before = now()
    assert now() == before
    change(package)
    assert now() != before


def test_what_is_saved_while_it_loads_is_no_known_state(
    package: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import sys

    monkeypatch.setattr(sys.modules["builder.store.tool_state"], "LOADED_NS", LOADED_NS)
    assert now() != now()

"""What templates were compiled to is kept, and counts only while it is whole and theirs."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from jinja2 import Environment, FileSystemLoader

from builder.rendering.compiled_templates import CompiledTemplates

TEXT = "{{ 2 | twice }} of {{ name }}"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of one template, where Python may keep code."""
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    (tmp_path / "page.html").write_text(TEXT, "utf-8")
    return tmp_path


class Counting(Environment):
    """An environment that counts what it compiles."""

    compiled = 0

    def _generate(self, *given: object, **more: object) -> str:
        self.compiled += 1
        return super()._generate(*given, **more)  # type: ignore[arg-type]


def filled(folder: Path, state: str = "one", times: int = 2) -> tuple[str, int]:
    """What a new process makes of the template, and how often it compiles."""
    made = Counting(loader=FileSystemLoader(folder), bytecode_cache=CompiledTemplates(state))
    made.filters["twice"] = lambda number: number * times
    return made.get_template("page.html").render(name="it"), made.compiled


def kept(folder: Path) -> Path:
    (file,) = (folder / "__pycache__").iterdir()
    return file


def test_it_is_compiled_once(folder: Path) -> None:
    assert filled(folder) == ("4 of it", 1)
    assert filled(folder) == ("4 of it", 0)


def test_another_text_or_tool_compiles_anew(folder: Path) -> None:
    filled(folder)
    assert filled(folder, "two", times=3) == (
        "6 of it",
        1,
    )  # a constant was worked out with a filter
    (folder / "page.html").write_text(TEXT + "!", "utf-8")
    assert filled(folder, "two", times=3) == ("6 of it!", 1)
    assert filled(folder, "two", times=3) == ("6 of it!", 0)


def test_damage_is_compiled_anew(folder: Path) -> None:
    filled(folder)
    whole = kept(folder).read_bytes()
    turned = (whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :] for at in range(len(whole)))
    for damaged in [b"", whole[:10], whole[:-1], whole + b"x", *turned]:
        kept(folder).write_bytes(damaged)
        assert filled(folder) == ("4 of it", 1)
    assert filled(folder) == ("4 of it", 0)


def test_nothing_is_kept_where_python_keeps_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert filled(folder) == ("4 of it", 1)
    assert not (folder / "__pycache__").exists()


def test_a_folder_that_takes_nothing_is_done_without(folder: Path) -> None:
    (folder / "__pycache__").write_text("a file where a folder should be", "utf-8")
    assert filled(folder) == ("4 of it", 1)
    assert filled(folder) == ("4 of it", 1)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_nothing_waits_for_a_pipe(folder: Path) -> None:
    filled(folder)
    file = kept(folder)
    file.unlink()
    os.mkfifo(file)
    assert filled(folder) == ("4 of it", 1)

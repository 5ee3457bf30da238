"""A misspelt word is a type error, in whatever way it is compared."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest
from builder_code import name_of, nodes
from long.misspellings import RAW, drawn, let_through
from typed_words import TEXT

ROOT = Path(__file__).parents[1]
MYPY = Path(sys.executable).parent / "mypy"

SAMPLE = """
from typing import Any, Final, Literal

Kind = Literal["tap_plan", "probe_plan"]
NAMED: Final = "tap_plan"
BARE = frozenset({"tap_plan"})
LISTED: frozenset[Kind] = frozenset({"tap_plan"})
BY_TEXT = {"tap_plan": 1}
BY_KIND: dict[Kind, int] = {"tap_plan": 1}


def seen(kind: Kind, maybe: Kind | None, text: str, many: tuple[Kind, ...], pair: tuple[Kind, str],
         raw: dict[str, Any]) -> list[object]:
    return [
        kind == "tap_plan",
        kind == "tapplan",  # wrong
        "tapplan" != kind,  # wrong
        maybe == "tapplan",  # wrong
        kind in ("tap_plan", "probe_plan"),
        kind in ("tapplan", "probe_plan"),  # wrong
        kind not in ["tapplan"],  # wrong
        kind in {"tap_plan", "probeplan"},  # wrong
        "tap_plan" in many,
        "tapplan" in many,  # wrong
        "tapplan" in LISTED,  # wrong
        "tapplan" in BY_KIND,  # wrong
        kind in LISTED,
        kind in BARE,  # wrong: nobody knows what it holds
        BY_KIND[kind],
        BY_KIND.get("tapplan"),  # wrong
        BY_TEXT[kind],  # wrong: nobody knows its keys
        {"tap_plan": 1, "probe_plan": 2}[kind],
        {"tapplan": 1, "probe_plan": 2}[kind],  # wrong
        text == "tap_plan",  # wrong: it may be any text
        text in ("tap_plan", "x"),  # wrong: it may be any text
        text == NAMED,
        text in (NAMED, ""),
        text == "/",
        kind == text,  # wrong: it may be any text
        set(many) == {"tap_plan"},
        set(many) <= {"tapplan"},  # wrong
        pair == ("tap_plan", "any text"[:3]),
        pair == ("tapplan", text),  # wrong
        ("tapplan", text) in {pair},  # wrong
        raw.get("a key"),
    ]
"""
"""Each way of comparing a word, the wrong ones marked."""


def test_each_way_of_comparing_is_looked_at(tmp_path: Path) -> None:
    (tmp_path / "builder").mkdir()
    (tmp_path / "builder/__init__.py").touch()
    (tmp_path / "builder/sample.py").write_text(SAMPLE)
    settings = f"[mypy]\nstrict = true\nplugins = {ROOT / 'tests/typed_words.py'}\n"
    (tmp_path / "mypy.ini").write_text(settings)
    done = subprocess.run(
        [MYPY, "builder"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    told = {int(line) for line in re.findall(r"sample\.py:(\d+): error", done.stdout)}
    lines = SAMPLE.splitlines()
    assert told == {at for at, line in enumerate(lines, 1) if "# wrong" in line}, done.stdout


@pytest.mark.slow
def test_words_misspelt_at_twenty_seeded_places_are_reported() -> None:
    """`tests/long/misspellings.py` does so in every function."""
    assert let_through(drawn(20, seed=20)) == []


def test_no_word_is_matched_by_a_case() -> None:
    """The checker says nothing of `case "tapplan":`."""
    cases = [
        f"{name_of(path)}:{node.lineno}"
        for path, node in nodes()
        if isinstance(node, ast.MatchValue) and isinstance(node.value, ast.Constant)
    ]
    assert cases == []


@pytest.mark.parametrize("module", [*TEXT, *RAW])
def test_what_is_left_out_exists_and_is_said_why(module: str) -> None:
    assert (ROOT / f"{module.replace('.', '/')}.py").is_file()
    assert (TEXT | RAW)[module]

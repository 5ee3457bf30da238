"""One place judges near spellings, so that every command proposes and types the same."""

from __future__ import annotations

import ast

from builder_code import name_of, nodes

from builder.speller import nearest, nearest_few, surely, surely_named


def test_nothing_else_compares_spellings() -> None:
    found = {
        name_of(path)
        for path, node in nodes()
        if isinstance(node, ast.Import | ast.ImportFrom) and "difflib" in ast.unparse(node)
    }
    assert found == {"speller.py", "cli/mending.py"}  # which shows how two texts differ


def test_near_words_come_nearest_first() -> None:
    known = ["tap-not-made", "tap-not-marked", "fuse-too-small"]
    assert nearest_few("tap-not-mad", known, 3) == ["tap-not-made", "tap-not-marked"]
    assert nearest("tap not MADE", known, least=1.0) == "tap-not-made"
    assert nearest("tap-not-mad", known, least=1.0) is None
    assert nearest("quite another", known) is None


def test_names_are_typed_only_where_no_other_is_near() -> None:
    assert surely_named("session-north", ["session-north1", "bench"]) == "session-north1"
    assert surely_named("s1", ["s2"]) is None
    # Two sisters a letter apart: neither is sure.
    assert surely_named("corner-car-201", ["corner-car-2011", "corner-car-2012"]) is None
    # Words have to lead by more than names have.
    assert surely("accesory", ["accessory", "run"]) == "accessory"
    assert surely_named("accesory", []) is None

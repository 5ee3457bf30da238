"""Characters nobody can see are refused with a finding, in every free-text field's file."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from hostile_book import HIDDEN, KINDS, free_places, put
from shipped_book import FOLDERS_OF_PARTS, PINOUTS, loombook

from builder.loading import load_text


@pytest.fixture(scope="module")
def parts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("refused")
    for kind in FOLDERS_OF_PARTS:
        (folder / kind).mkdir()
        shutil.copy(PINOUTS / kind / "TEMPLATE.yaml", folder / kind / f"template-{kind[:-1]}.yaml")
    return folder


@pytest.mark.parametrize("escaped", [True, False], ids=["escaped", "itself"])
@pytest.mark.parametrize("hidden", HIDDEN, ids=[f"U+{ord(one[0]):04X}" for one in HIDDEN])
def test_a_hidden_character_stops_the_check(parts: Path, hidden: str, escaped: bool) -> None:
    at = HIDDEN.index(hidden)
    kind = list(KINDS)[at % 4 + 1]
    file = parts / kind / f"template-{kind[:-1]}.yaml"
    before = file.read_text("utf-8")
    record = load_text(before, file.name).data
    place, word = free_places(KINDS[kind], record)[0]
    put(record, place, f"{word[:2]}{hidden}{word[2:]}")
    try:
        file.write_text(json.dumps(record, ensure_ascii=escaped, indent=1), "utf-8")
        done = loombook("check", parts, "--format", "json")
    finally:
        file.write_text(before, "utf-8")
    assert done.exit_code == 1
    findings = [one for one in json.loads(done.stdout)["findings"] if one["severity"] == "stop"]
    assert [one for one in findings if one["file"].endswith(file.name) and one["line"] > 1]
    assert not set(hidden) & set(done.output)


def test_the_same_record_without_it_passes(parts: Path) -> None:
    done = loombook("check", parts)
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize("broken", ["two\nlines", "tab\there"], ids=["line end", "tab"])
def test_a_line_is_one_line(parts: Path, broken: str) -> None:
    file = parts / "cables" / "template-cable.yaml"
    before = file.read_text("utf-8")
    record = load_text(before, file.name).data
    place, _ = free_places("cable", record)[0]
    put(record, place, broken)
    try:
        file.write_text(json.dumps(record), "utf-8")
        done = loombook("check", parts)
    finally:
        file.write_text(before, "utf-8")
    assert done.exit_code == 1
    assert "SCH" in done.output and broken not in done.output

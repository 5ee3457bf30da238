"""A record that is there and cannot be read: a finding and exit 1, not the usage of a command."""

from __future__ import annotations

from pathlib import Path

import pytest
from evidence_book import JOB, TANSY, small_book
from shipped_book import loombook

ASKED = (
    ("show", TANSY), ("show", JOB), ("why", TANSY, "A.7"), ("why", JOB), ("comeback", JOB),
    ("begin", JOB, "--by", "alder-pit-audio"), ("new", "bay-sheet", JOB), ("plan", JOB),
)  # fmt: skip


@pytest.mark.parametrize("words", ASKED, ids=" ".join)
def test_an_empty_file_is_a_finding_at_its_place(tmp_path: Path, words: tuple[str, ...]) -> None:
    book = small_book(tmp_path)
    for name in (TANSY, JOB):
        (file,) = book.rglob(f"{name}.yaml")
        file.write_text("")
    said = loombook(*words, "--book", book)
    assert said.exit_code == 1 and "Usage" not in said.output
    assert ".yaml:1:1: " in said.output and "the file holds no record" in said.output


def test_a_name_of_nothing_is_wrong_use(tmp_path: Path) -> None:
    for words in (("show", "no-such-car"), ("why", "no-such-job"), ("comeback", "no-such-job")):
        said = loombook(*words, "--book", small_book(tmp_path / words[0]))
        assert said.exit_code == 2 and "Usage" in said.output

"""A record that is there and cannot be read: a finding and exit 1, not the usage of a command."""

from __future__ import annotations

import json
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


def spoilt(book: Path, name: str) -> str:
    """Spoil a record so that it is no YAML, and return how its finding begins."""
    (file,) = book.rglob(f"{name}.yaml")
    file.write_text(file.read_text("utf-8").replace("schema: 1", "schema: [1", 1), "utf-8")
    return f"{file.name}:"


@pytest.mark.parametrize("asked", [("tansy",), ("ostrel", "tansy", "rear", "left"), ("tasny",)])
def test_a_car_that_cannot_be_read_is_not_said_to_be_none(tmp_path: Path, asked: tuple[str, ...]):
    book = small_book(tmp_path)
    place = spoilt(book, TANSY)
    said = loombook("find", *asked, "--book", book)
    assert said.exit_code == 1 and "is called" not in said.output
    assert f"The record of vehicle {TANSY} may be meant and cannot be read." in said.output
    assert place in said.output and "stop YML105" in said.output
    shown = loombook("show", " ".join(asked), "--book", book)
    assert shown.exit_code == 1 and place in shown.output and "YML105" in shown.output
    which = loombook("which", "Ostrel", "Tansy", "--book", book)
    assert which.exit_code == 1 and place in which.output and "Usage" not in which.output


def test_data_of_an_answer_have_what_cannot_be_read(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    spoilt(book, TANSY)
    found = json.loads(loombook("find", "tansy", "--format", "json", "--book", book).output)
    (unread,) = found["unread"]
    assert (unread["kind"], unread["id"]) == ("vehicle", TANSY)
    assert [one["rule"] for one in unread["findings"]] == ["YML105"]
    assert "cannot be read" in found["missed"]


def test_a_part_that_cannot_be_read_is_not_said_to_be_none(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    (part,) = (file for file in (book / "converters").glob("cvn-2a.yaml"))
    place = spoilt(book, part.stem)
    said = loombook("find", "cvn-2a", "--book", book)
    assert said.exit_code == 1 and place in said.output
    assert "The record of converter cvn-2a may be meant and cannot be read." in said.output


def test_of_two_cars_that_are_meant_one_answers_and_the_other_is_told_of(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    (file,) = book.rglob(f"{TANSY}.yaml")
    (file.parent / "ostrel-tansy-2020-wagon.yaml").write_text("schema: [1\n", "utf-8")
    said = loombook("find", "tansy", "switched", "--book", book)
    assert said.exit_code == 0 and "plug A" in said.output
    assert "vehicle ostrel-tansy-2020-wagon may be meant and cannot be read." in said.output


def test_a_record_that_cannot_be_read_and_is_not_named_is_no_answer(tmp_path: Path) -> None:
    book = small_book(tmp_path)
    spoilt(book, TANSY)
    said = loombook("find", "quimber", "--book", book)
    assert said.exit_code == 1 and "cannot be read" not in said.output
    assert 'called "quimber"' in said.output

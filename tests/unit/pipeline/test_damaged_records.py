"""Damaged records: each has its finding with what to type; `mend` mends what it can, no more."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any

import pytest
import yaml
from shipped_book import FOLDERS_OF_PARTS, PINOUTS
from shipped_cars import copy_makers, typed_in_one

from builder.book import Book, RecordFile, open_book
from builder.findings import Finding
from builder.pipeline.changing.mending import mended_book, text_findings, write_mended
from builder.pipeline.checking.book_check import check_book

TABLE = Path(__file__).parents[2] / "records" / "damaged" / "damages.yaml"


def damages() -> list[dict[str, Any]]:
    entries: list[dict[str, Any]] = yaml.safe_load(TABLE.read_text("utf-8"))
    of = ""
    for entry in entries:
        of = entry.setdefault("of", of)
    return entries


DAMAGES = damages()


@pytest.fixture(scope="module")
def book_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with everything that the damaged records refer to."""
    folder = tmp_path_factory.mktemp("damaged") / "book"
    for kind in FOLDERS_OF_PARTS:
        shutil.copytree(PINOUTS / kind, folder / kind)
    copy_makers(folder, "ostrel")
    typed_in_one(folder, "ostrel-tansy-2017-hatch-base")
    return folder


def mirrored(text: str, plug: str) -> str:
    """The record with the cavities of one plug of two rows of ten counted from the other face."""

    def flipped(number: str) -> str:
        return str(11 - int(number) if int(number) <= 10 else 31 - int(number))

    start = text.index(f"- id: {plug}\n")
    end = text.index("\n  - id: ", start)
    part = re.sub(r"(cavity|against): (\d+)", lambda m: f"{m[1]}: {flipped(m[2])}", text[start:end])
    part = re.sub(
        r"empty: \[([\d, ]+)\]",
        lambda m: f"empty: [{', '.join(map(flipped, m[1].split(', ')))}]",
        part,
    )
    return text[:start] + part + text[end:]


class Damaged:
    """One damaged record in its book; the shipped text comes back at the end."""

    def __init__(self, folder: Path, entry: dict[str, Any]) -> None:
        self.entry, self.folder = entry, folder
        self.path = folder / entry["of"]
        self.shipped = self.path.read_bytes().decode("utf-8")
        if "mirror" in entry:
            self.path = self.path.with_stem(self.path.stem.replace("-base", "-other"))
            other = self.shipped.replace("-hatch-base\n", "-hatch-other\n", 1)
            self.text = mirrored(other, entry["mirror"])
        else:
            assert entry["before"] in self.shipped
            self.text = self.shipped.replace(entry["before"], entry["after"], 1)
        assert self.text != self.shipped
        self.path.write_bytes(self.text.encode("utf-8"))

    @property
    def book(self) -> Book:
        return open_book(self.folder)

    @property
    def file(self) -> RecordFile:
        return next(file for file in self.book.files() if file.path == self.path)

    def findings(self) -> list[Finding]:
        text = self.path.read_bytes().decode("utf-8")
        shape = text_findings(self.file, text)
        return shape or check_book(self.book).findings_of(self.file.shown)

    def line(self) -> int:
        at = self.entry.get("at", self.entry.get("after"))
        return self.text[: self.text.index(at)].count("\n") + 1

    def wanted(self) -> str:
        """What `mend` has to make of it."""
        mended, entry = self.entry["mended"], self.entry
        if mended == "no":
            return self.text
        if mended == "before":
            return self.shipped
        return self.shipped.replace(entry["before"], mended, 1)

    def undo(self) -> None:
        if "mirror" in self.entry:
            self.path.unlink()
        else:
            self.path.write_bytes(self.shipped.encode("utf-8"))


@pytest.fixture(params=DAMAGES, ids=[entry["name"] for entry in DAMAGES])
def damaged(request: pytest.FixtureRequest, book_folder: Path):
    record = Damaged(book_folder, request.param)
    yield record
    record.undo()


def hits(damaged: Damaged, findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.rule_id == damaged.entry["rule"]]


def test_the_damage_is_found_and_mended_as_far_as_it_can_be(damaged):
    found = [f for f in hits(damaged, damaged.findings()) if f.line == damaged.line()]
    assert found, [(f.rule_id, f.line, f.message) for f in damaged.findings()]
    assert damaged.entry["says"] in found[0].help

    mended = mended_book(damaged.book, [damaged.file])
    assert mended.files[0].new == damaged.wanted()
    write_mended(mended)
    assert damaged.path.read_bytes().decode("utf-8") == damaged.wanted()
    left = [f for f in hits(damaged, damaged.findings()) if f.message == found[0].message]
    assert bool(left) == (damaged.entry["mended"] == "no")


def test_there_are_fifty_and_both_sorts():
    mended = [entry for entry in DAMAGES if entry["mended"] != "no"]
    assert len(DAMAGES) >= 50
    assert len(mended) >= 25
    assert len(DAMAGES) - len(mended) >= 20


def test_many_damages_in_one_file_are_mended_together(book_folder):
    """Several in one file, far from each other, in one run; a second run finds nothing to do."""
    shape = [e for e in DAMAGES if e["mended"] == "before" and e["rule"].startswith("SCH1")]
    path = book_folder / shape[0]["of"]
    shipped = path.read_bytes().decode("utf-8")
    text = shipped
    used = []
    for entry in shape:
        if entry["of"] == shape[0]["of"] and text.count(entry["before"]) == 1:
            text = text.replace(entry["before"], entry["after"], 1)
            used.append(entry)
    assert len(used) >= 8
    try:
        path.write_bytes(text.encode("utf-8"))
        book = open_book(book_folder)
        file = next(file for file in book.files() if file.path == path)
        mended = mended_book(book, [file])
        assert mended.files[0].new == shipped
        assert len(mended.files[0].made) >= len(used)
        write_mended(mended)
        again = open_book(book_folder)  # what was written is seen by opening the book again
        file = next(file for file in again.files() if file.path == path)
        assert not mended_book(again, [file]).changed
    finally:
        path.write_bytes(shipped.encode("utf-8"))

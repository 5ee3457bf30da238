"""A file that holds nothing and is no record: what to type is said of the file that it is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from shipped_book import loombook


@pytest.mark.parametrize("text", ["", "\n\n", "# to be written\n", "# one\n# two\n"])
def test_what_an_empty_settings_file_is_told_to_type_is_enough(small_book: Path, text: str) -> None:
    settings = small_book / "book.yaml"
    settings.write_text(text, "utf-8")
    said = loombook("check", small_book)
    assert said.exit_code == 1 and "copy the kind's" not in said.output
    assert "book.yaml:1:1: stop YML107 the file holds no settings" in said.output
    (advice,) = re.findall(r'help: type "(.*)";', said.output)
    settings.write_text(f"{advice}\n", "utf-8")
    said = loombook("check", small_book)
    assert said.exit_code == 0 and "book.yaml:" not in said.output


def test_an_empty_list_of_borrowed_books_is_told_to_go(small_book: Path) -> None:
    (small_book / "book.yaml").write_text("schema: 1\n", "utf-8")
    lock = small_book / "books.lock"
    lock.write_text("", "utf-8")
    said = loombook("check", small_book)
    assert said.exit_code == 1 and "copy the kind's" not in said.output
    assert "books.lock:1:1: stop YML107 the file holds no list of books" in said.output
    assert "delete it where the book borrows none" in said.output
    lock.unlink()
    assert loombook("check", small_book).exit_code == 0

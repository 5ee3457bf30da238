"""What is completed is the same whether settings are read or known from an earlier reading."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from forked import command
from shipped_book import PINOUTS

from builder.book import BookNotFoundError, RecordFile, listed_names, settings
from builder.book.record_files import FOLDER_OF, Name
from builder.store import FOLDER, NO_STORE_VARIABLE

RENAMED = "renamed:\n  - {kind: vehicle, was: old-one, now: newer-one}\n"
SETTINGS = {
    "none": None,
    "plain": "schema: 1\nsite_name: Ours\n",
    "shipped": (PINOUTS / "book.yaml").read_text("utf-8"),
    "private root": "roots:\n  - {path: ., visibility: shared}\n"
    "  - {path: private, visibility: private}\n" + RENAMED,
    "private root within": "roots: [., {path: vehicles/hers, visibility: private}]\n",
    "root away": "roots: [., nowhere]\n",
    "root that lends": "roots: [., ../lender]\n" + RENAMED,
    "root of a lender": "roots: [., ../lender/pinouts]\n",
    "chain": RENAMED + "  - {kind: vehicle, was: older-one, now: old-one}\n",
    "back to itself": RENAMED + "  - {kind: vehicle, was: newer-one, now: old-one}\n",
    "no YAML": "roots: [\n",
    "two readings": "roots: [.]\nroots: [private]\n",
    "against the schema": "roots: [private]\nhouse_defaults: {asleep_min: a while}\n",
    "unknown key": "root: [private]\n" + RENAMED,
}


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Records of some kinds in the book, a private root, and a book beside it that lends."""
    names = (
        *("book/vehicles/a/newer-one", "book/vehicles/a/other", "book/vehicles/TEMPLATE"),
        *("book/vehicles/hers/vehicles/x/within", "book/private/vehicles/b/own-one"),
        *("book/housings/two-row", "lender/vehicles/c/lent", "lender/pinouts/vehicles/d/lent-too"),
    )
    for name in names:
        place = tmp_path / f"{name}.yaml"
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text("schema: 1\n", "utf-8")
    lent = "renamed:\n  - {kind: vehicle, was: lent-of-old, now: lent}\n"
    (tmp_path / "lender" / "book.yaml").write_text(lent, "utf-8")
    (tmp_path / "book" / FOLDER).mkdir()
    return tmp_path / "book"


Listed = tuple[list[RecordFile], dict[Name, str]]


def names(book: Path, *kinds: str) -> Listed | str:
    try:
        found = listed_names.listed_names(book, kinds or FOLDER_OF)  # type: ignore[arg-type]
    except BookNotFoundError as error:
        return str(error)
    return list(found.files), dict(found.renamed)


def read_anew(book: Path, *kinds: str) -> Listed | str:
    with pytest.MonkeyPatch.context() as without:
        without.setenv(NO_STORE_VARIABLE, "1")
        return names(book, *kinds)


@pytest.mark.parametrize("case", SETTINGS)
def test_what_is_known_is_what_would_be_read(book: Path, case: str) -> None:
    for text in (SETTINGS[case], SETTINGS["private root"], SETTINGS[case]):
        file = book / "book.yaml"
        file.unlink(missing_ok=True)
        if text is not None:
            file.write_text(text, "utf-8")
        wanted = read_anew(book)
        assert names(book) == wanted and names(book) == wanted
        assert names(book, "housing") == read_anew(book, "housing")


def not_read(*given: object) -> None:
    raise AssertionError("the settings were read")


@pytest.mark.parametrize("case", ["none", "plain", "private root", "no YAML", "chain"])
def test_settings_are_read_once(book: Path, case: str, monkeypatch: pytest.MonkeyPatch) -> None:
    if text := SETTINGS[case]:
        (book / "book.yaml").write_text(text, "utf-8")
    first = names(book)
    monkeypatch.setattr(settings, "read_settings", not_read)
    assert names(book) == first
    with pytest.raises(AssertionError):
        read_anew(book)


def lock(book: Path) -> None:
    (book / "books.lock").write_text("schema: 1\nbooks: [\n", "utf-8")


def two_settings(book: Path) -> None:
    (book / "loombook.yaml").write_text("schema: 1\n", "utf-8")


def settings_above(book: Path) -> None:
    (book / "book.yaml").unlink()
    (book.parent / "book.yaml").write_text(RENAMED, "utf-8")


def root_lends_now(book: Path) -> None:
    (book / "private" / "book.yaml").write_text(SETTINGS["chain"] or "", "utf-8")


def bytes_of_no_text(book: Path) -> None:
    (book / "book.yaml").write_bytes(b"roots: [private]\n# \xff\n")


def folder_of_settings(book: Path) -> None:
    (book / "book.yaml").unlink()
    (book / "book.yaml").mkdir()


def pipe(book: Path) -> None:
    (book / "book.yaml").unlink()
    os.mkfifo(book / "book.yaml")


CHANGES = [
    lock, two_settings, settings_above, root_lends_now, bytes_of_no_text, folder_of_settings, pipe,
]  # fmt: skip


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__)
def test_whatever_else_has_a_say_is_read(book: Path, change: Callable[[Path], None]) -> None:
    (book / "book.yaml").write_text(SETTINGS["private root"] or "", "utf-8")
    names(book)
    change(book)
    wanted = read_anew(book)
    assert names(book) == wanted and names(book) == wanted


def test_who_completes_makes_no_store(book: Path) -> None:
    (book / FOLDER).rmdir()
    assert names(book) == names(book)
    assert not (book / FOLDER).exists()


def test_a_checked_book_completes_what_it_holds(book: Path) -> None:
    (book / "book.yaml").write_text(RENAMED, "utf-8")
    command("find", "other", "--book", book)
    found = names(book, "vehicle")
    assert isinstance(found, tuple)
    assert [file.name for file in found[0]] == [
        ("vehicle", "newer-one"), ("vehicle", "other"), ("vehicle", "within"),
    ]  # fmt: skip
    assert found[1] == {("vehicle", "old-one"): "newer-one"}

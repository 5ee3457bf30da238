"""A bay sheet prints the plug's own names: another face than theirs is said on purpose only."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from chromium import CHROMIUM, Browser
from evidence_book import BRINDLE, small_book
from shipped_book import loombook
from test_bay_sheet import PLAN, address, build, choose, exported, of_sheet, press, type_in

from builder.model.names import FACE_NAMES

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="Debian's Chromium is not installed"),
]
TEST = "a-11-radio-on-50ma"
FACE = "return document.querySelector('[name=bay-read_from]').value"
ASKED = "return (document.querySelector('.bay-asked') || {}).textContent || ''"


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = small_book(tmp_path_factory.mktemp("face") / "book")
    build(folder)
    return folder


@pytest.fixture
def phone(book: Path, browser: Browser, tmp_path: Path) -> Iterator[Browser]:
    browser.as_phone(tmp_path)
    browser.open(address(book, PLAN))
    type_in(browser, TEST, "12,4", "Battery")
    type_in(browser, TEST, "11,9")
    for name, value in (("by", "Third Bay"), ("tag", "zz1"), ("date", "2025-11-02")):
        choose(browser, name, value)
    yield browser
    browser.run("localStorage.clear()")


def face_of(path: Path) -> str:
    return str(of_sheet(path)["session"]["read_from"])


def test_whoever_chooses_nothing_has_the_numbers_of_the_sheet_and_nothing_is_turned(
    book: Path, phone: Browser, tmp_path: Path
) -> None:
    assert phone.run(FACE) == "moulded"
    path = exported(phone, tmp_path)
    assert face_of(path) == "moulded"
    done = loombook("evidence", "add", path, "--book", book, "--dry-run", "--format", "json")
    grades = json.loads(done.output)["grades"]
    assert [(one["place"], one["after"]) for one in grades] == [("A.11", "good")]


@pytest.mark.parametrize("face", ["wire_side", "mating_side"])
def test_another_face_is_asked_for_in_the_words_of_both_drawings_before_it_counts(
    phone: Browser, tmp_path: Path, face: str
) -> None:
    choose(phone, "read_from", face)
    asked = str(phone.run(ASKED))
    assert all(FACE_NAMES[one] in asked for one in ("wire_side", "mating_side"))
    assert f"yourself, {FACE_NAMES[face]}" in asked and "latch" in asked
    assert face_of(exported(phone, tmp_path)) == "moulded"  # not said yet


def test_saying_so_counts_and_stays_until_it_is_taken_back(
    book: Path, phone: Browser, tmp_path: Path
) -> None:
    choose(phone, "read_from", "mating_side")
    press(phone, "Yes, I counted")
    assert phone.run(ASKED) == ""
    phone.open(address(book, PLAN))
    assert phone.run(FACE) == "mating_side"
    path = exported(phone, tmp_path)
    assert face_of(path) == "mating_side"
    path.unlink()
    choose(phone, "read_from", "wire_side")
    press(phone, "No, by the numbers of this sheet")
    assert phone.run(FACE) == "moulded" and phone.run(ASKED) == ""
    assert face_of(exported(phone, tmp_path)) == "moulded"


def test_a_sheet_of_before_whose_face_was_chosen_by_the_way_is_by_its_numbers(
    book: Path, phone: Browser, tmp_path: Path
) -> None:
    phone.run(
        "for (const key of Object.keys(localStorage)) if (key.startsWith('loombook:bay:')) {"
        " const kept = JSON.parse(localStorage[key]); kept.session.read_from = 'mating_side';"
        " localStorage[key] = JSON.stringify(kept); }"
    )
    phone.open(address(book, PLAN))
    assert face_of(exported(phone, tmp_path)) == "moulded"


def test_an_empty_sheet_to_fill_by_hand_has_its_own_numbers(book: Path, tmp_path: Path) -> None:
    place = tmp_path / "by-hand.yaml"
    assert loombook("new", "bay-sheet", BRINDLE, "-o", place, "--book", book).exit_code == 0
    assert "\n  read_from: moulded " in place.read_text("utf-8")

"""How commands end: refused, written, or written with something to mend; what texts say of it."""

from __future__ import annotations

import re

import pytest
from shipped_book import ROOT, loombook
from test_new_mend_tidy import CAR, options

from builder.cli import exit_codes, main

TANSY = "vehicles/ostrel/ostrel-tansy-2017-hatch-base.yaml"
CODES = {0, exit_codes.REFUSED, 2, exit_codes.WRITTEN_WITH_FINDINGS, exit_codes.STOPPED}


def damage(book, name: str, old: str, new: str) -> None:
    path = book / name
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def test_mend_tells_by_its_code_whether_it_wrote_and_what_is_left(small_book) -> None:
    damage(small_book, TANSY, "base: pink", "base: Pink")
    assert loombook("mend", "--dry-run", small_book).exit_code == 1
    damage(small_book, "amplifiers/amn-4.yaml", "min_v: 9.0", "min_v: nine")
    done = loombook("mend", small_book)
    assert done.exit_code == 3 and "1 mended in 1 file; 1 left" in done.output
    again = loombook("mend", small_book)
    assert again.exit_code == 1 and "0 mended" in again.output


def test_tidy_tells_whether_others_were_written_beside_what_it_left_alone(small_book) -> None:
    (small_book / "cables" / "broken.yaml").write_text("id: [", "utf-8")
    damage(small_book, TANSY, "schema: 1", "schema:   1")
    assert loombook("tidy", "--check", small_book).exit_code == 1
    assert loombook("tidy", small_book).exit_code == 3
    assert loombook("tidy", small_book).exit_code == 1


def test_a_new_record_that_is_wrong_is_written_and_said_to_be(small_book) -> None:
    (small_book / "housings" / "block-c-20.yaml").unlink()  # one housing of twenty is left
    twice = {**CAR, "pin": [*CAR["pin"], "A 11 fl+ white"]}  # A 1 is that already
    made = ("new", "vehicle", *options(twice), "-b", small_book)
    assert loombook(*made, "--dry-run").exit_code == 1
    done = loombook(*made)
    assert done.exit_code == 3 and "is written" in done.output
    assert loombook("check", small_book).exit_code == 1


def codes_in(text: str) -> set[int]:
    return {int(code) for code in re.findall(r"(?<![\w.])(0|1|2|3|130)(?= [a-z])", text)}


@pytest.mark.parametrize("place", ["help", "terminal", "handbook", "cli"])
def test_every_text_names_the_same_codes(place: str) -> None:
    terminal = (ROOT / "site_templates/handbook/at-the-terminal.md").read_text("utf-8")
    table = terminal.split("| exit code |")[1].split("\n\n")[0]
    handbook = (ROOT / "site_templates/handbook/programs.md").read_text("utf-8")
    package = __import__("builder.cli").cli.__doc__
    said = {
        "help": codes_in(str(main.help).split("Exit codes:")[1]),
        "terminal": {int(code) for code in re.findall(r"^\| (\d+) \|", table, re.M)},
        "handbook": codes_in(handbook.split("Exit codes:")[1].split("\n\n")[0]),
        "cli": codes_in(str(package).split("Exit codes:")[1]),
    }
    assert said[place] == CODES

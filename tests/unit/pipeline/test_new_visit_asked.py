"""`new visit` as it asks: what may be left open, what is known already, which car is meant."""

from __future__ import annotations

from pathlib import Path

import pytest
from evidence_book import TANSY
from shipped_book import loombook
from shipped_cars import copy_makers
from visited_book import data_of

READING = "A.10 run 12.2 V battery 12.3"


def asked(book: Path, *lines: str) -> str:
    done = loombook("new", "visit", "-b", book, typed="".join(f"{line}\n" for line in lines))
    assert done.exit_code in (0, 3), done.output
    return str(done.output)


def visit(book: Path, name: str) -> dict[str, object]:
    (file,) = (book / "visits" / TANSY).glob(f"{name}-*.yaml")  # and a sum of its readings
    return data_of(file)


FIRST = ("tansy", "dusty-yard-audio", "2031-03-04", "wren", "", "", "", "", "at the wires")


def test_what_nobody_wrote_down_is_left_open_by_an_empty_line(small_book: Path) -> None:
    said = asked(small_book, *FIRST, READING, "")
    (session,) = visit(small_book, "dusty-yard-audio-2031-03-04-wren")["sessions"]
    assert session["car"] == {"tag": "wren"}
    assert session["read_from"] == "wire_side"
    assert TANSY in said  # what a part of the name was taken for


def test_the_next_visit_shows_what_the_last_one_had_but_never_its_face(small_book: Path) -> None:
    asked(small_book, *(*FIRST[:4], "2017", "", "base", "", "wires"), READING, "")
    said = asked(small_book, TANSY, "", "2031-03-11", "", "", "", "", "", "wires", READING, "")
    (session,) = visit(small_book, "dusty-yard-audio-2031-03-11-wren")["sessions"]
    assert session["car"] == {"tag": "wren", "year": 2017, "trim": "base"}
    assert "[dusty-yard-audio]" in said
    assert "[wire_side]" not in said


def test_another_car_is_shown_nothing_of_the_last_one(small_book: Path) -> None:
    asked(small_book, *(*FIRST[:4], "2017", "", "base", "", "wires"), READING, "")
    asked(small_book, TANSY, "", "2031-03-11", "heron", "", "", "", "", "wires", READING, "")
    (session,) = visit(small_book, "dusty-yard-audio-2031-03-11-heron")["sessions"]
    assert session["car"] == {"tag": "heron"}


@pytest.mark.parametrize(
    ("typed", "says"),
    [("tanzania", 'no vehicle is called "tanzania"'), ("quillan", '"quillan" could be any of')],
)
def test_a_car_that_is_none_or_several_is_asked_again(
    small_book: Path, typed: str, says: str
) -> None:
    copy_makers(small_book, "quillan")
    assert says in asked(small_book, typed, *FIRST, READING, "")

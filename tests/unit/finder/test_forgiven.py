"""What is known is never read as something else; what was forgiven is said, and why none fits."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest
from benchmarks.generated_entries import made_entries
from samples import many

from builder.finder.entries import Entry, Row
from builder.finder.forgiven import said_of
from builder.finder.search import find, reply
from builder.finder.tokens import tokens_of
from builder.finder.understanding import items_of
from builder.finder.words import KNOWN
from builder.model.vehicle import Scope


@cache
def made() -> list[Entry]:
    """A large invented book: it takes longer to make than all else that is asked here."""
    return made_entries(many(900))


def car(make: str, model: str, years: tuple[int, int] = (2010, 2012)) -> Entry:
    scope = Scope(
        year_from=years[0], year_to=years[1], bodies=("all",), markets=("all",),
        drive_side="both", trims=("all",), options_any=(), options_none=(), radios=("r",),
    )  # fmt: skip
    row = Row("constant", "", "A", "1", "red", "good", "")
    name = f"{make}-{model}-{years[0]}".lower()
    return Entry(name, make, model, "base", *years, "", (row,), scope, ())


TOLVANE, TORVANE, TIRN, TARN = (
    car("Tolvane", "Quern"),
    car("Torvane", "Rook"),
    car("Mirdle", "Tirn", (2003, 2006)),
    car("Hesper", "Tarn", (2021, 2024)),
)
BOOK = (TOLVANE, TORVANE, TIRN, TARN)


def test_a_known_make_with_a_model_of_another_never_answers_with_a_car_of_the_other():
    models = sorted({(one.make, one.model) for one in made()})
    makes = sorted({make for make, _ in models})
    # "Colovia Habrisk" may mean the Colovia of a make called Habrisk: then it is no such question.
    asked = [
        (make, model)
        for make in makes
        for _, model in models
        if (make, model) not in models and (model, make) not in models
    ]
    for make, model in Random(3).sample(asked, many(400)):
        told = reply(f"{make} {model}", made())
        assert {one.entry.make for one in told.answers} <= {make}, (make, model)
        assert told.answers or make in told.missed, (make, model)


def test_a_make_is_no_variant_of_another_make():
    other = car("Torvane", "Umbo")._replace(variant="tolvane colours")
    assert find("tolvane umbo", (*BOOK, other)) == []
    assert [one.entry.make for one in find("tolvane", (*BOOK, other))] == ["Tolvane"]
    twice = car("Quern", "Tirn")
    assert [one.entry.make for one in find("tolvane quern", (*BOOK, twice))] == ["Tolvane"]


def test_the_answer_to_one_make_is_never_the_other_whatever_is_asked_of_it():
    for text in ("tolvane rook", "rook tolvane", "tolvane rook constant", "tolvane roo"):
        assert find(text, BOOK) == [], text
    assert [one.entry.make for one in find("tokvane rook", BOOK)] == ["Torvane"]


def test_a_known_name_is_no_slip_in_another_when_its_years_do_not_fit():
    assert find("tirn 2022", BOOK) == []
    assert reply("tirn 2022", BOOK).missed == (
        "Mirdle Tirn is recorded for 2003 to 2006, not for 2022."
    )


def test_a_known_name_is_no_beginning_of_another():
    short = car("Tor", "Umbo")
    assert find("tor rook", (*BOOK, short)) == []
    assert [one.entry.make for one in find("tor", (*BOOK, short))] == ["Tor"]
    assert [one.entry.make for one in find("tor rook", BOOK)] == ["Torvane"]


def test_a_known_name_is_never_completed_to_a_word_of_the_table_nor_left_out():
    named = car("Tolvane", "Mo")
    assert [one.entry.model for one in find("tolvane mo", (*BOOK, named))] == ["Mo"]
    assert find("torvane mo", (*BOOK, named)) == []
    assert find("torvane gro", (*BOOK, car("Tolvane", "Gro"))) == []


def test_a_known_last_word_is_not_taken_for_the_beginning_of_a_phrase():
    words = [word for word in KNOWN if " " not in word]
    for phrase in (word for word in KNOWN if " " in word):
        start, _, end = phrase.rpartition(" ")
        for known in (one for one in words if end.startswith(one) and one != end):
            items = items_of(tokens_of(f"{start} {known}"))
            assert items[-1].said.split()[-1] == known, phrase


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("rook constant", []),
        ("roook constant", [("roook", ("rook",))]),
        ("rook constnat", [("constnat", ("constant",))]),
        ("rook cons", [("cons", ("constant",))]),
        ("torva cons", [("cons", ("constant",)), ("torva", ("torvane",))]),
        ("torn constant", [("torn", ("tarn", "tirn"))]),
        ("rook hot at all", [("hot at all", ("hot at all times",))]),
        ("rook 1", [("1", ("cavity 1",))]),
        ("rook mo", [("mo", ())]),
    ],
)
def test_what_was_forgiven_is_said(text, read):
    told = reply(text, BOOK)
    assert told.answers
    assert [(one.said, one.words) for one in told.read_as] == read


def test_of_a_long_question_the_first_letters_are_read_and_the_rest_is_named():
    told = reply("rook constant " + "z" * 10_000_000, BOOK, {"a-b": "c-d"})
    assert told.answers == () and said_of(told.read_as) == (
        f'"{"z" * 20}…" left out: only the first 160 characters of a question are read.'
    )
    told = reply("rook constant".ljust(159) + " mute", BOOK)
    assert len(told.answers) == 1
    assert said_of(told.read_as) == (
        '"mute" left out: only the first 160 characters of a question are read.'
    )
    assert reply("rook constant" + " " * 200, BOOK).read_as == ()


def test_an_old_id_at_the_end_of_a_question_that_grows_is_read_whole():
    old = f"{'rook' * 38}-ab"
    assert reply(old, BOOK, {old: f"{'rook' * 38}-abcdefgh"}).missed.endswith('-abcdefgh".')


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("tolvane rook", 'No Tolvane is called "rook"; Torvane has one.'),
        ("tolvane roook", 'No Tolvane is called "roook" (read as "rook"); Torvane has one.'),
        ("tolvane torvane", "No Tolvane is a Torvane."),
        ("quern rook", 'No car of this book is called "quern" and "rook" at once.'),
        ("tolvane zibbelin", 'No make, model, variant or part of this book is called "zibbelin".'),
        ("quern 2025", "Tolvane Quern is recorded for 2010 to 2012, not for 2025."),
        ("quern from 2025", "Tolvane Quern is recorded for 2010 to 2012, not for 2025 and later."),
        ("base before 2002", "Cars of that name are recorded for 2003 to 2006, 2010 to 2012, "
         "2021 to 2024, not for 2001 and earlier."),
        ("2012 mute", "mute: not recorded for any car of 2012."),
        ("mute", "mute: not recorded for any car of this book."),
        ("the wire ", "These words ask for nothing: say a car, or what you look for."),
    ],
)  # fmt: skip
def test_a_miss_explains_itself(text, why):
    told = reply(text, BOOK)
    assert told.answers == ()
    assert told.missed == why

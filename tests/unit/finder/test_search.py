"""Which rows answer, and which car comes first."""

from __future__ import annotations

import pytest

from builder.finder.entries import NO_WIRE, Entry, Row, cavities, colours
from builder.finder.search import find
from builder.finder.tables import MOST_IN_PART, PageNames, finder_data, id_pattern
from builder.model.vehicle import Scope


def row(function: str, cavity: str, wire: str, plug: str = "A", channel: str = "") -> Row:
    return Row(function, channel, plug, cavity, wire, "good", "")


def car(
    model: str, *rows: Row, make: str = "Toran", years: tuple[int, int] = (2010, 2012)
) -> Entry:
    scope = Scope(
        year_from=years[0], year_to=years[1], bodies=("all",), markets=("all",),
        drive_side="both", trims=("all",), options_any=(), options_none=(), radios=("r",),
    )  # fmt: skip
    name = f"{make}-{model}-{years[0] + 1}-base".lower()
    return Entry(name, make, model, "base", *years, "", rows, scope, ())


ONE = car(
    "Alder",
    row("constant", "1", "yellow/red"),
    row("accessory", "2", "red/yellow"),
    row("illumination", "3", "red"),
    row("speaker", "4 + / 5 −", "white and white/black", channel="rear-left"),
    row("unknown", "6", "red/white", "B"),
    row("run", "fuse", "fuse position in the red/yellow panel", "F3"),
)
OTHER = car("Birch", row("constant", "1", "red/yellow"))


def places(text: str, *cars: Entry) -> dict[str, list[str]]:
    return {a.entry.model: [f"{r.plug} {r.cavity}" for r in a.rows] for a in find(text, cars)}


def test_legs_of_a_row():
    assert cavities(ONE.rows[3]) == ("4", "5")
    assert colours(ONE.rows[3]) == ("white", "white/black")
    assert colours(ONE.rows[5]) == ()
    assert colours(row("ground", "7", NO_WIRE)) == ()


def test_the_order_as_asked_wins_over_the_other_order():
    assert places("alder yellow/red", ONE) == {"Alder": ["A 1"]}
    assert places("alder red/yellow", ONE) == {"Alder": ["A 2"]}
    assert list(places("red/yellow", ONE, OTHER)) == ["Alder", "Birch"]
    assert list(places("toran yellow/red", OTHER, ONE)) == ["Alder", "Birch"]


def test_the_other_order_is_shown_and_said_when_there_is_no_better():
    found = find("birch yellow/red", [OTHER])
    assert [r.cavity for r in found[0].rows] == ["1"]
    assert found[0].notes == ("No yellow wire with red stripe here; red with yellow stripe is.",)


def test_a_plain_wire_comes_before_a_striped_one_and_unknown_last():
    assert places("alder red", ONE) == {"Alder": ["A 3", "A 1", "A 2", "B 6"]}


def test_a_wire_that_was_named_answers_whatever_its_colour():
    found = find("alder green rear left", [ONE])
    assert [r.cavity for r in found[0].rows] == ["4 + / 5 −"]
    assert "No wire of that colour" in found[0].notes[0]
    assert find("green rear left", [ONE]) == []


def test_plug_cavity_and_spot():
    assert places("alder plug b", ONE) == {"Alder": ["B 6"]}
    assert places("alder pin 5", ONE) == {"Alder": ["A 4 + / 5 −"]}
    assert places("alder a5", ONE) == {"Alder": ["A 4 + / 5 −"]}
    assert places("alder f3", ONE) == {"Alder": ["F3 fuse"]}
    assert places("alder 2", ONE) == {"Alder": ["A 2"]}


def test_a_spot_can_be_the_name_of_a_car():
    named = car("B6", row("ground", "9", "black"))
    assert places("b6", ONE, named) == {"B6": ["A 9"], "Alder": ["B 6"]}
    assert places("b6 ground", ONE, named) == {"B6": ["A 9"]}


@pytest.mark.parametrize(
    "text", ["adler constant", "aldr constant", "alderr constnat", "alder con"]
)
def test_slips_and_beginnings(text):
    assert places(text, ONE, OTHER) == {"Alder": ["A 1"]}


def test_a_slip_is_not_forgiven_when_something_is_spelt_so():
    near = car("Older", row("constant", "8", "red"))
    assert list(places("older constant", ONE, near)) == ["Older"]


def test_a_car_of_other_years_does_not_answer():
    assert places("alder 2013 constant", ONE) == {}
    assert places("alder 2009-2010 constant", ONE) == {"Alder": ["A 1"]}


def test_a_missing_fact_is_said_beside_the_one_that_is_there():
    found = find("alder constant and mute", [ONE])
    assert [r.function for r in found[0].rows] == ["constant"]
    assert found[0].notes == ("mute: not recorded for this car.",)


def test_why_there_is_no_switched_wire_is_said():
    asleep = ONE._replace(no_switched="woken by data", rows=ONE.rows[:1])
    assert find("alder switched", [asleep])[0].notes == ("woken by data",)
    assert find("alder", [asleep])[0].notes == ("woken by data",)
    assert find("alder constant", [asleep])[0].notes == ()


def test_ids_are_shortened_where_they_can_be():
    assert id_pattern(ONE) == "@-#1-base"
    assert id_pattern(ONE._replace(id="toran-alder-2011b")) == "@-2011b"
    assert id_pattern(ONE._replace(id="other")) == "other"


def test_a_model_is_never_divided_between_parts():
    cars = [
        car(f"M{at // 7}", row("ground", "1", "black"))._replace(id=f"x-{at}") for at in range(1001)
    ]
    data = finder_data(cars, PageNames({}, {}, {}))
    starts = data.book["parts"]
    assert len(data.parts) == len(starts) == 3
    assert sum(len(part["wires"]) for part in data.parts) == 1001
    assert max(len(part["wires"]) for part in data.parts) <= MOST_IN_PART
    assert all(start % 7 == 0 for start in starts)

"""Which record is my car? The questions of `find` and `which`."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from shipped_book import PINOUTS, loombook

from builder.cli import main
from builder.model.vehicle import Scope
from builder.proof.identify.choices import choices_of
from builder.proof.sisters.which_car import questions_between

BADGE, BOX = 'Is there a badge "Stage"', "Is there a finned box"


def which(*arguments: str, typed: str | None = None):
    return CliRunner().invoke(main, ["which", *arguments, "-b", str(PINOUTS)], input=typed)


def test_find_lists_the_questions_in_order_with_what_each_answer_means():
    done = loombook("find", "lovage", "switched", "-b", PINOUTS)
    assert "3 records could be this car" in done.output
    assert 0 < done.output.index(BADGE) < done.output.index(BOX)
    assert "yes → Quillan Lovage 2020–2022, top" in done.output


def test_find_as_json_holds_the_questions():
    found = json.loads(loombook("find", "lovage", "-b", PINOUTS, "--format", "json").output)
    first, second = found["which_car"]["ask"]
    assert (first["cost"], second["cost"]) == ("look", "panel")
    assert {"answer": "yes", "leaves": ["quillan-lovage-2021-top"]} in first["answers"]


def test_find_asks_nothing_when_one_record_fits():
    done = loombook("find", "tansy", "-b", PINOUTS, "--format", "json")
    assert json.loads(done.output)["which_car"] is None


def test_which_lists_them_and_exits_1_while_several_are_left():
    done = which("quillan", "lovage", "--list")
    assert done.exit_code == 1
    assert done.output.index(BADGE) < done.output.index(BOX)


def test_which_asks_and_names_the_car():
    done = which("Quillan", "Lovage", "2021", "--ask", typed="no\n2\n")
    assert done.exit_code == 0
    assert "loombook show quillan-lovage-2021-mid" in done.output


def test_which_stops_asking_when_one_is_left():
    done = which("quillan", "lovage", "--ask", typed="yes\n")
    assert done.exit_code == 0
    assert BOX not in done.output


def test_unknown_stays_unknown():
    done = which("quillan", "lovage", "--ask", typed="what\n?\n1\n")
    assert done.exit_code == 0  # without the badge, no finned box means base
    done = which("quillan", "lovage", "--ask", typed="?\n?\n")
    assert done.exit_code == 1
    assert "none is yours until the rest is known" in done.output


def test_a_year_narrows_and_a_wrong_one_says_which_there_are():
    assert "loombook show wexlow-quern-2016-early" in which("wexlow", "quern", "2016").output
    done = which("wexlow", "quern", "1999")
    assert done.exit_code == 2
    assert "2016 to 2018" in done.output


def test_a_misspelled_model_gets_the_nearest():
    done = which("quilan", "lovage")
    assert done.exit_code == 2
    assert "did you mean Quillan Lovage?" in done.output


def _scope(**changes) -> Scope:
    facts = {
        "year_from": 2016, "year_to": 2019, "build_from": None, "build_to": None,
        "bodies": ("hatch",), "markets": ("all",), "drive_side": "left", "trims": ("base",),
        "options_any": (), "options_none": (), "radios": ("unknown",),
    }  # fmt: skip
    return Scope(**{**facts, **changes})


class _Record:
    def __init__(self, id: str, scope: Scope) -> None:
        self.id, self.scope, self.how_to_tell = id, scope, ()


TO_MARCH, FROM_APRIL = {"build_to": "2018-03"}, {"build_from": "2018-04"}
TO_DECEMBER, FROM_FEBRUARY = {"build_to": "2017-12"}, {"build_from": "2019-02"}
BETWEEN = "2018-01 to 2019-01"


@pytest.mark.parametrize(
    ("one", "other", "words"),
    [
        (TO_MARCH, FROM_APRIL, {"2018-03 or earlier", "2018-04 or later"}),
        (TO_DECEMBER, FROM_FEBRUARY, {"2017-12 or earlier", BETWEEN, "2019-02 or later"}),
        ({"year_to": 2017}, {"year_from": 2018}, {"2016 to 2017", "2018 to 2019"}),
        ({"drive_side": "left"}, {"drive_side": "right"}, {"left", "right"}),
        ({"trims": ("base", "mid")}, {"trims": ("top",)}, {"base or mid", "top"}),
    ],
)
def test_answers_are_words_a_person_can_press(one, other, words):
    records = [_Record("a", _scope(**one)), _Record("b", _scope(**other))]
    (asked,) = questions_between(records).ask
    said = {choice.words: choice.leaves for choice in choices_of(asked, ["a", "b"])}
    assert set(said) <= words
    assert {("a",), ("b",)} <= set(said.values())

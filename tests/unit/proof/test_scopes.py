"""Scopes: what keeps two apart, and the questions that tell which record is the car."""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from proof_cars import scope

from builder.model.vehicle import Answer, Question, Scope
from builder.proof.identify.choices import choices_of
from builder.proof.sisters.questions import Asked
from builder.proof.sisters.scope_questions import scope_questions
from builder.proof.sisters.scopes import overlap, reasons_apart
from builder.proof.sisters.which_car import questions_between


@pytest.mark.parametrize(
    ("one", "other", "both"),
    [
        ({}, {}, True),
        ({"year_to": 2017}, {"year_from": 2018}, False),
        ({"year_to": 2018}, {"year_from": 2018}, True),
        ({"build_to": "2018-05"}, {"build_from": "2018-06"}, False),
        ({"build_to": "2018-06"}, {"build_from": "2018-06"}, True),
        ({"build_to": "2018-05"}, {}, True),
        ({"bodies": ("hatch",)}, {"bodies": ("estate",)}, False),
        ({"bodies": ("hatch",)}, {"bodies": ("unknown",)}, True),
        ({"markets": ("north",)}, {"markets": ("all",)}, True),
        ({"markets": ("north",)}, {"markets": ("south",)}, False),
        ({"drive_side": "left"}, {"drive_side": "right"}, False),
        ({"drive_side": "both"}, {"drive_side": "right"}, True),
        ({"trims": ("base", "mid")}, {"trims": ("mid",)}, True),
        ({"trims": ("base",)}, {"trims": ("sport",)}, False),
        ({"radios": ("kr-210",)}, {"radios": ("unknown",)}, True),
        ({"radios": ("kr-210",)}, {"radios": ("kr-400",)}, False),
        ({"options_any": ("stage",)}, {"options_none": ("stage",)}, False),
        ({"options_any": ("stage", "tow")}, {"options_none": ("stage",)}, True),
        ({"options_any": ("stage",)}, {}, True),
    ],
)
def test_overlap(one: dict[str, Any], other: dict[str, Any], both: bool) -> None:
    first, second = scope(**one), scope(**other)
    assert overlap(first, second) is both
    assert overlap(second, first) is both
    assert len(reasons_apart(first, second)) == (0 if both else 1)


LISTS = st.sampled_from([("a",), ("b",), ("a", "b"), ("all",), ("unknown",)])


@given(LISTS, LISTS, st.sampled_from(["bodies", "markets", "trims", "radios"]))
def test_not_knowing_never_keeps_scopes_apart(
    one: tuple[str, ...], other: tuple[str, ...], field: str
) -> None:
    if not overlap(scope(**{field: one}), scope(**{field: other})):
        assert not {"all", "unknown"} & {*one, *other}
    assert overlap(scope(**{field: ("unknown",)}), scope(**{field: other}))


class Record(NamedTuple):
    id: str
    scope: Scope
    how_to_tell: tuple[Question, ...] = ()


def question(text: str, cost: str, **means: str) -> Question:
    answers = tuple(Answer(answer=answer, means=record) for answer, record in means.items())
    return Question(question=text, cost=cost, answers=answers)  # type: ignore[arg-type]


def test_the_cheapest_question_that_decides_is_asked() -> None:
    box = question("Is there a finned box behind the trim?", "panel", no="this", yes="mid")
    badge = question("Is there a badge on the door?", "look", no="this", yes="mid")
    records = [Record("base", scope(), (box, badge)), Record("mid", scope())]
    found = questions_between(records)
    assert [asked.question for asked in found.ask] == [badge.question]
    assert found.same == ()


def test_two_questions_part_three_records_and_the_cheap_one_comes_first() -> None:
    """Expected records left, worked by hand: a badge that parts 1 of 3 leaves (4 + 1)/3."""
    box = question("Is there a finned box?", "panel", no="this", yes="mid")
    badge = question("Is there a badge?", "look", no="this", yes="top")
    base = Record("base", scope(), (box, badge))
    mid = Record("mid", scope(), (question("Is there a badge?", "look", no="this", yes="top"),))
    found = questions_between([base, mid, Record("top", scope())])
    assert [asked.question for asked in found.ask] == [
        "Is there a badge?",
        "Is there a finned box?",
    ]
    assert found.ask[0].remaining(["base", "mid", "top"]) == pytest.approx(5 / 3)
    assert found.same == ()


def test_a_dear_question_beats_two_that_cost_more_together() -> None:
    dear = question("What does the amplifier say?", "panel", a="this", b="two", c="three")
    dearer = question("What colour is the plug behind the radio?", "radio", x="this", y="two")
    last = question("How many wires are in it?", "radio", p="two", q="three")
    also = question("How many screws hold it?", "radio", p="this", q="three")
    records = [
        Record("one", scope(), (dear, dearer, last, also)),
        *(Record(name, scope()) for name in ("two", "three")),
    ]
    assert [asked.question for asked in questions_between(records).ask] == [dear.question]


def test_the_name_of_a_trim_is_asked_only_where_no_question_of_the_records_decides() -> None:
    """A name is a look; the records' own question, which costs more, is asked all the same."""
    box = question("Is there a finned box?", "panel", no="this", yes="mid")
    base = Record("base", scope(trims=("base",)), (box,))
    mid, top = Record("mid", scope(trims=("mid",))), Record("top", scope(trims=("top",)))
    assert [asked.question for asked in questions_between([base, mid]).ask] == [box.question]
    asked = questions_between([base, mid, top]).ask
    assert [each.question for each in asked] == ["Which trim is it?"]


def test_a_name_that_parts_nothing_is_not_asked() -> None:
    both = [Record(name, scope(trims=("all",))) for name in ("a", "b")]
    found = questions_between(both)
    assert (found.ask, found.same) == ((), (("a", "b"),))


def test_a_record_that_a_question_does_not_speak_of_is_left_open_by_every_answer() -> None:
    asked = Asked("Is there a badge?", "look", {"a": frozenset({"no"}), "b": frozenset({"yes"})})
    assert choices_of(asked, ["a", "b", "c"]) == (("no", ("a", "c")), ("yes", ("b", "c")))


@pytest.mark.parametrize(
    ("years", "words"),
    [(("2016",), "2016"), (("2016", "2017", "2018"), "2016 to 2018"),
     (("2016", "2018"), "2016 or 2018"), (("hatch", "coupe"), "coupe or hatch")],
)  # fmt: skip
def test_answers_that_leave_the_same_records_are_one_choice(
    years: tuple[str, ...], words: str
) -> None:
    asked = Asked("Which is it?", "look", {"a": frozenset(years), "b": frozenset({"other"})})
    assert choices_of(asked, ["a", "b"])[0] == (words, ("a",))


def test_what_the_scopes_say_is_asked_too() -> None:
    early, late = Record("a", scope(year_to=2017)), Record("b", scope(year_from=2018))
    assert [q.question for q in questions_between([early, late]).ask] == ["Which model year is it?"]
    before = Record("a", scope(build_to="2018-05"))
    after = Record("b", scope(build_from="2018-06"))
    assert [q.cost for q in questions_between([before, after]).ask] == ["look"]
    has = Record("a", scope(options_any=("stage",)))
    not_ = Record("b", scope(options_none=("stage",)))
    assert [q.question for q in questions_between([has, not_]).ask] == ["Has it the option stage?"]


@pytest.mark.parametrize(
    ("before", "after", "answers"),
    [
        ({"build_to": "2017-12"}, {"build_from": "2018-01"},
         ("2017-12 or earlier", "2018-01 or later")),
        ({"build_to": "2018-01"}, {"build_from": "2018-02"},
         ("2018-01 or earlier", "2018-02 or later")),
        ({"build_to": "2018-05"}, {"build_from": "2018-06"},
         ("2018-05 or earlier", "2018-06 or later")),
        ({"build_from": "2017-11", "build_to": "2017-11"}, {"build_from": "2017-12"},
         ("2017-11", "2017-12 or later")),
        ({"build_from": "2016-12", "build_to": "2017-11"}, {"build_from": "2017-12"},
         ("2016-12 to 2017-11", "2017-12 or later")),
    ],
)  # fmt: skip
def test_months_are_cut_where_a_scope_begins_or_ends(
    before: dict[str, str], after: dict[str, str], answers: tuple[str, str]
) -> None:
    records = [Record("a", scope(**before)), Record("b", scope(**after))]
    (asked,) = [one for one in scope_questions(records) if "month" in one.question]
    assert (asked.answers["a"], asked.answers["b"]) == tuple(frozenset({one}) for one in answers)


def test_build_months_are_said_with_their_open_ends() -> None:
    apart = reasons_apart(scope(build_to="2018-05"), scope(build_from="2018-06"))
    assert apart == {"build months": "build months: any to 2018-05 against 2018-06 to any"}
    whole = scope(build_from="2017-01", build_to="2017-09")
    apart = reasons_apart(whole, scope(build_from="2018-06", build_to="2018-08"))
    said = "build months: 2017-01 to 2017-09 against 2018-06 to 2018-08"
    assert apart == {"build months": said}


def test_records_that_nothing_tells_apart_are_named() -> None:
    found = questions_between([Record("a", scope()), Record("b", scope(trims=("unknown",)))])
    assert (found.ask, found.same) == ((), (("a", "b"),))


BUILDS = st.sampled_from(
    [
        {},
        {"build_from": "2015-01"},
        {"build_to": "2016-12"},
        {"build_from": "2015-01", "build_to": "2016-12"},
        {"build_from": "2017-03", "build_to": "2018-01"},
    ]
)
SCOPES = st.builds(
    lambda builds, **facts: scope(**builds, **facts),
    builds=BUILDS,
    trims=LISTS,
    bodies=LISTS,
    year_from=st.integers(2014, 2016),
    year_to=st.integers(2016, 2019),
    drive_side=st.sampled_from(["left", "right", "both"]),
)


@given(st.lists(SCOPES, min_size=2, max_size=5))
def test_questions_part_exactly_the_scopes_that_do_not_overlap(scopes: list[Scope]) -> None:
    records = [Record(str(index), one) for index, one in enumerate(scopes)]
    found = questions_between(records)
    for one in records:
        for other in records:
            if one.id >= other.id:
                continue
            parted = any(asked.parts(one.id, other.id) for asked in found.ask)
            assert parted is not overlap(one.scope, other.scope)
            assert ((one.id, other.id) in found.same) is not parted

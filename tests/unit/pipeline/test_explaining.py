"""`rule` and `explain`: every id has its page, and a grade is taken apart without loss."""

from __future__ import annotations

import json

import pytest
from click.shell_completion import ShellComplete
from shipped_book import PINOUTS, loombook

from builder.cli import main
from builder.pipeline.asking.explanations import every_explanation

KAVO = "ostrel-kavo-2017-hatch-base"
IDS = [each.id for each in every_explanation()]


@pytest.mark.parametrize("rule_id", IDS)
def test_every_finding_has_a_page_with_all_its_parts(rule_id):
    done = loombook("rule", rule_id)
    assert done.exit_code == 0
    for heading in ("What it catches", "Why it matters", "Example", "How to fix", "Source"):
        assert f"\n{heading}\n" in done.output
    assert "```" not in done.output


def test_all_families_are_there():
    assert {"PIN", "MET", "EVD", "TOP", "YML", "SCH", "BOK"} <= {each[:3] for each in IDS}


@pytest.mark.parametrize("name", ["pin101", "PIN101", "cavity-used-twice"])
def test_case_and_name_do_not_matter(name):
    assert loombook("rule", name).output == loombook("rule", "PIN101").output


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("PIN1O1", "PIN101"), ("PIN-101", "PIN101"), ("cavity-use-twice", "PIN101"), ("ZZZ", "Rules")],
)
def test_an_unknown_id_is_answered_with_the_nearest(typed, meant):
    done = loombook("rule", typed)
    assert done.exit_code == 2
    assert meant in done.output


def explain(*arguments: str) -> str:
    done = loombook("explain", *arguments, "--book", PINOUTS)
    assert done.exit_code == 0, done.output
    return done.output


def test_a_proven_pin_shows_what_was_weighed_and_who_uses_it():
    said = explain(KAVO, "A.7")
    assert "Grade  0.96 proven" in said
    assert said.count("supports, weighs 0.80") == 2
    assert "support 0.960, opposition 0.000" in said
    assert "Tap plan with cv-2a: turn-on" in said
    assert "Tap plan of job kavo-subwoofer: turn-on" in said
    assert "To raise it" not in said


def test_a_fed_input_is_named_with_its_leg():
    assert "with cv-2a: input 1 positive (rear left, addon)" in explain(KAVO, "a.11")


def test_a_disputed_pin_shows_both_sides_and_what_decides():
    data = disputed()
    said = explain(data["vehicle"], f"{data['plug']}.{data['cavity']}")
    assert "Disputed" in said and "opposes, weighs" in said
    assert data["opposition"] >= 0.4 and "To raise it" in said


def disputed() -> dict[str, object]:
    """The first disputed pin of a car that is in the book for having one."""
    car = "marlow-tern-2004"
    shown = json.loads(loombook("show", car, "-b", PINOUTS, "--format", "json").output)
    pins = [pin for pin in shown["computed"]["grades"] if pin["grade"] == "disputed"]
    assert pins
    place = f"{pins[0]['plug']}.{pins[0]['cavity']}"
    return dict(json.loads(explain(car, place, "--format", "json")))


def test_json_holds_the_same_without_rounding():
    data = json.loads(explain(KAVO, "A.7", "--format", "json"))
    counted = [item["weight"] for item in data["items"] if item["counts"] and item["supports"]]
    left = 1.0
    for weight in counted:
        left *= 1 - weight
    assert data["support"] == pytest.approx(1 - left)
    assert {use["kind"] for use in data["used_by"]} == {"plan", "job"}


@pytest.mark.parametrize(
    ("arguments", "says"), [((KAVO, "A.99"), "A.7"), (("zeppelin", "A.1"), "no vehicle is called")]
)
def test_wrong_use_names_what_there_is(arguments, says):
    done = loombook("explain", *arguments, "-b", PINOUTS)
    assert done.exit_code == 2 and says in done.output


def completed(*words: str) -> list[str]:
    found = ShellComplete(main, {}, "loombook", "_X").get_completions(list(words[:-1]), words[-1])
    return [item.value for item in found]


def test_shells_complete_rules_vehicles_and_pins(monkeypatch):
    monkeypatch.chdir(PINOUTS.parent)
    assert completed("rule", "PIN10")[0] == "PIN101"
    assert "PIN101" in completed("rule", "pin10")
    assert completed("rule", "cavity-used") == ["cavity-used-twice"]
    assert KAVO in completed("explain", "ostrel-")
    assert completed("explain", KAVO, "a.1")[:2] == ["A.1", "A.10"]


def test_completion_outside_a_book_offers_nothing_and_does_not_fail(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert completed("explain", "") == []
    assert completed("explain", KAVO, "") == []

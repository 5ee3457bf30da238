"""`why`: every id has its page, and a grade is taken apart without loss."""

from __future__ import annotations

import json

import pytest
from click.shell_completion import ShellComplete
from each_case import each
from shipped_book import PINOUTS, loombook

from builder.cli import main
from builder.pipeline.answers.explanations import every_explanation
from builder.rules.pages import HEADINGS

TANSY = "ostrel-tansy-2017-hatch-base"
IDS = [each.id for each in every_explanation()]


@each("rule_id", IDS)
def test_every_finding_has_a_page_with_all_its_parts(rule_id):
    done = loombook("why", rule_id)
    assert done.exit_code == 0
    for heading in HEADINGS:
        assert f"\n{heading}\n" in done.output
    assert "```" not in done.output


def test_all_families_are_there():
    assert {"PIN", "MET", "EVD", "TOP", "YML", "SCH", "BOK"} <= {each[:3] for each in IDS}


@pytest.mark.parametrize("name", ["pin101", "PIN101", "cavity-used-twice"])
def test_case_and_name_do_not_matter(name):
    assert loombook("why", name).output == loombook("why", "PIN101").output


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("PIN1O1", "PIN101"),
        ("PIN-101", "PIN101"),
        ("cavity-use-twice", "PIN101"),
        ("ZZZ999", "Rules"),
    ],
)
def test_an_unknown_id_is_answered_with_the_nearest(typed, meant):
    done = loombook("why", typed)
    assert done.exit_code == 2
    assert meant in done.output


def explain(*arguments: str) -> str:
    done = loombook("why", *arguments, "--book", PINOUTS)
    assert done.exit_code == 0, done.output
    return done.output


def test_a_proven_pin_shows_what_was_weighed_and_who_uses_it():
    said = explain(TANSY, "A.7")
    assert "Grade  0.96 proven" in said
    assert said.count("supports, weighs 0.80") == 2
    assert "support 0.960, opposition 0.000" in said
    assert "Tap plan with cvn-2a: turn-on" in said
    assert "Tap plan of job tansy-subwoofer: turn-on" in said
    assert "To raise it" not in said


def test_what_feeds_the_converter_itself_is_named():
    assert "job dash-converter: the converter's own supply" in explain(
        "brantmoor-leto-2019-wagon-mid", "A.5"
    )
    assert "job dash-converter: the converter's own ground" in explain(
        "brantmoor-leto-2019-wagon-mid", "A.25"
    )


def test_a_fed_input_is_named_with_its_leg():
    assert "with cvn-2a: input 1 positive (rear left, addon)" in explain(TANSY, "a.11")


def test_a_year_that_nobody_measured_counts_less():
    moor = ("hesper-moor-2009", "A.1")  # holds for 2008 to 2011, measured on one of 2009
    plain, near, far = (
        json.loads(explain(*moor, *year, "--format", "json"))["score"]
        for year in ((), ("--year", "2010"), ("--year", "2011"))
    )
    assert 0 < far < near == plain
    assert "nobody measured a car within one year of 2011" in explain(*moor, "--year", "2011")


def test_a_disputed_pin_shows_both_sides_and_what_decides():
    data = disputed()
    said = explain(data["vehicle"], f"{data['plug']}.{data['cavity']}")
    assert "Disputed" in said and "opposes, weighs" in said
    assert data["opposition"] >= 0.4 and "To raise it" in said


def disputed() -> dict[str, object]:
    """The first disputed pin of a car that is in the book for having one."""
    car = "mirdle-smew-2004"
    shown = json.loads(loombook("show", car, "-b", PINOUTS, "--format", "json").output)
    pins = [pin for pin in shown["computed"]["grades"] if pin["grade"] == "disputed"]
    assert pins
    place = f"{pins[0]['plug']}.{pins[0]['cavity']}"
    return dict(json.loads(explain(car, place, "--format", "json")))


def test_json_holds_the_same_without_rounding():
    data = json.loads(explain(TANSY, "A.7", "--format", "json"))
    counted = [item["weight"] for item in data["items"] if item["counts"] and item["supports"]]
    left = 1.0
    for weight in counted:
        left *= 1 - weight
    assert data["support"] == pytest.approx(1 - left)
    assert {use["kind"] for use in data["used_by"]} == {"plan", "job"}


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((TANSY, "A.99"), "A.7"),
        (("zibbelin", "A.1"), "no vehicle is called"),
        ((TANSY, "A.7", "--year", "2020"), "holds for no car of 2020"),
        ((TANSY, "--year", "2018"), "say which, as in A.7"),
    ],
)
def test_wrong_use_names_what_there_is(arguments, says):
    done = loombook("why", *arguments, "-b", PINOUTS)
    assert done.exit_code == 2 and says in done.output


def completed(*words: str) -> list[str]:
    found = ShellComplete(main, {}, "loombook", "_X").get_completions(list(words[:-1]), words[-1])
    return [item.value for item in found]


def test_shells_complete_rules_vehicles_and_pins(monkeypatch):
    monkeypatch.chdir(PINOUTS.parent)
    assert completed("why", "PIN10")[0] == "PIN101"
    assert "PIN101" in completed("why", "pin10")
    assert completed("why", "cavity-used") == ["cavity-used-twice"]
    assert TANSY in completed("why", "ostrel-")
    assert completed("why", TANSY, "a.1")[:2] == ["A.1", "A.10"]


@pytest.mark.parametrize("job", ["tansy-subwoofer", "leto-four-doors"])
def test_a_job_says_why_it_is_planned_so(job):
    pack = json.loads(loombook("plan", job, "-b", PINOUTS, "--format", "json").output)
    said = loombook("why", job, "-b", PINOUTS)
    assert said.exit_code == 0
    assert all(one["because"] in said.output for one in (*pack["because"], *pack["refusals"]))
    data = json.loads(loombook("why", job, "-b", PINOUTS, "--format", "json").output)
    assert data == {key: pack[key] for key in data} and data["because"]


def test_what_is_neither_finding_nor_job_says_what_there_is():
    done = loombook("why", "zibbelin", "-b", PINOUTS)
    assert done.exit_code == 2
    assert "tansy-subwoofer" in done.output and "as in A.7" in done.output


OLD = [
    (("rule", "PIN101"), ("why", "PIN101")),
    (("explain", TANSY, "A.7"), ("why", TANSY, "A.7")),
    (("wanted", "--limit", "1"), ("next", "--limit", "1")),
    (("fix", "--dry-run"), ("mend", "--dry-run")),
    (("format", "--check"), ("tidy", "--check")),
    (("check", "--format", "github"), ("check", "--format", "annotations")),
]


@pytest.mark.parametrize(("old", "new"), OLD, ids=" ".join)
def test_an_old_name_does_the_same_and_says_the_new_one(old, new, small_book, monkeypatch):
    monkeypatch.chdir(small_book)
    before, now = loombook(*old), loombook(*new)
    assert (before.exit_code, before.stdout) == (now.exit_code, now.stdout)
    assert " now\n" in before.stderr and " now\n" not in now.stderr
    listed = loombook("--help").output
    assert old[0] == "check" or (f"\n  {old[0]} " not in listed and f"\n  {new[0]} " in listed)


def test_completion_outside_a_book_offers_findings_only_and_does_not_fail(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert completed("why", "") == IDS
    assert completed("why", "ostrel-") == []
    assert completed("why", TANSY, "") == []

"""Stops bar pins from plans; acceptances close findings, not plans; bad ones are found."""

from __future__ import annotations

import json

from shipped_book import loombook
from shipped_cars import typed_in_one
from test_commands import TANSY, edit


def plan(book):
    done = loombook("plan", TANSY, "-c", "cvn-2a", "-b", book, "--format", "json")
    return json.loads(done.output)


def test_an_accepted_stop_on_the_switched_pin_takes_it_out_of_the_plan(small_book):
    typed_in_one(small_book, TANSY)  # a visit's file has findings of its own: of two A.7, which?
    before = plan(small_book)
    assert before["turn_on"]["cavity"] == "7"
    # The same cavity described once more: nobody can say what it is.
    edit(
        small_book,
        "      - cavity: 7\n",
        "      - {cavity: 7, function: illumination}\n      - cavity: 7\n",
    )
    assert "PIN101" in loombook("check", small_book).output
    with_acceptance(small_book, "{rule: PIN101, at: A.7, reason: seen on two cars, who: me}")
    assert loombook("check", small_book).exit_code == 0
    after = plan(small_book)
    (retained,) = [rung for rung in after["ladder"] if rung["where"] == "A.7"]
    assert (retained["verdict"], retained["because"][:6]) == ("refused", "PIN101")
    # What is left above the rungs that are proved is asked for before anything is joined.
    assert (after["kind"], after["turn_on"]["cavity"]) == ("probe_plan", None)
    assert {test["fuse_position"] for test in after["tests"]} == {"F22"}


def test_an_accepted_stop_on_another_pin_leaves_the_plan_alone(small_book):
    before = plan(small_book)
    edit(small_book, "    empty: [8,", "    empty: [6, 8,")
    assert plan(small_book)["kind"] == "no_plan"
    with_acceptance(small_book, "{rule: PIN103, at: A.6, reason: seen on two cars, who: me}")
    after = plan(small_book)
    assert after["kind"] == before["kind"]
    assert after["feeds"] == before["feeds"]


def with_acceptance(book, entry):
    path = book / "vehicles" / "ostrel" / f"{TANSY}.yaml"
    text = path.read_text("utf-8")
    assert "\naccept: []\n" in text
    path.write_text(text.replace("\naccept: []\n", f"\naccept:\n  - {entry}\n"), "utf-8")


def test_an_acceptance_closes_the_finding_it_names(small_book):
    edit(small_book, "    empty: [8,", "    empty: [6, 8,")
    assert loombook("check", small_book).exit_code == 1
    with_acceptance(
        small_book, "{rule: PIN103, at: A.6, reason: both were seen on different cars, who: me}"
    )
    done = loombook("check", small_book)
    assert done.exit_code == 0, done.output
    assert "accepted: both were seen on different cars" in done.output


def test_an_acceptance_elsewhere_closes_nothing_and_is_found(small_book):
    edit(small_book, "    empty: [8,", "    empty: [6, 8,")
    with_acceptance(small_book, "{rule: PIN103, at: A.7, reason: wrong place for it, who: me}")
    done = loombook("check", small_book)
    assert done.exit_code == 1
    assert "BOK110" in done.output
    assert "2 to mend" in done.output


def test_a_hazard_cannot_be_accepted(small_book):
    with_acceptance(small_book, "{rule: MET103, at: A.7, reason: it will be fine, who: me}")
    done = loombook("check", small_book)
    assert done.exit_code == 1
    assert "BOK111" in done.output

"""`loombook comeback`: what it says, and what it says when it cannot."""

from __future__ import annotations

import json

from click.testing import CliRunner, Result
from shipped_book import PINOUTS, loombook

from builder.cli import main


def run(*words: str) -> Result:
    return loombook("comeback", *words, "--book", PINOUTS)


def test_a_line_that_failed_lists_its_causes_by_what_is_done_about_them() -> None:
    said = run("tansy-subwoofer", "--line", "sub-amp-turn-on-radio-on")
    assert said.exit_code == 0
    assert "1. make whole what runs from A.7 to fuse of the turn-on at A.7" in said.output
    assert "right luggage side: apart: turn-on of sub amp and sub amp turn-on" in said.output


def test_a_line_that_no_joint_decides_says_so() -> None:
    said = run("tansy-subwoofer", "--line", "lamps-before")
    assert said.output == "lamps-before: nothing of this circuit makes it fail by itself\n"


def test_every_fault_has_the_line_that_finds_it_or_a_reason() -> None:
    said = run("tansy-subwoofer", "--faults")
    assert said.exit_code == 0
    assert "single faults" in said.output.splitlines()[0]
    assert "tapped-ways (" in said.output
    assert "not found before trim goes home: nothing of the job runs through it" in said.output
    data = json.loads(run("tansy-subwoofer", "--faults", "--format", "json").output)
    assert data["job"] == "tansy-subwoofer"
    found = {fault["what"]: fault for fault in data["faults"]}
    wrong = found["turn-on of CVN-2A is joined to A.5, the aerial turn-on output, not to A.7"]
    assert (wrong["line"], wrong["in_time"], wrong["because"]) == ("tapped-ways", True, None)


def test_wrong_use_is_a_sentence() -> None:
    assert 'tansy-subwoofer is "nowhere"' in run("tansy-subwoofer", "--line", "nowhere").output
    assert run("tansy-subwoofer", "--line", "nowhere").exit_code == 2
    assert "there are:" in run("no-such-job", "--line", "whine").output
    assert "READING=FIGURE" in run("tansy-subwoofer", "dead", "-a", "idle-current").output
    assert "a figure in A, or in, low" in run("tansy-subwoofer", "dead", "-a", IDLE + "x").output
    refused = run("ullin-split-fronts", "dead")
    assert refused.exit_code == 1 and "nothing of ullin-split-fronts is joined" in refused.output


IDLE = "idle-current="


def test_without_a_symptom_it_lists_what_the_customer_may_say() -> None:
    said = run("tansy-subwoofer").output
    assert "flat_battery     the battery is flat after standing (5 causes)" in said
    assert "no single fault makes it" in run("sedge-fronts").output  # no wire lives by its lights


def test_each_answer_leads_on_and_the_last_says_what_to_do() -> None:
    first = run("tansy-subwoofer", "distorts", "--format", "json")
    assert first.exit_code == 1
    question = json.loads(first.output)["question"]
    assert question["takes_min"] > 1
    at = question["id"], question["high"]
    said = run("tansy-subwoofer", "distorts", "-a", f"{at[0]}={at[1] + 1 if at[1] else 'no'}")
    assert said.exit_code == 0
    assert said.output.startswith(("1. set the gain of", "1. set the correction of"))
    assert "then read again:" in said.output


def test_it_asks_until_the_cause_is_known_and_takes_answers_back() -> None:
    typed = "what?\n99\nundo\n0.1\n0.02\ndone\n"
    said = CliRunner().invoke(
        main, ["comeback", "tansy-subwoofer", "dead", "--book", str(PINOUTS)], input=typed
    )
    assert said.exit_code == 1
    assert "type a figure in A" in said.output
    assert said.output.count("  sub-amp-supply-drop\n") == 1


def test_two_faults_at_once_are_not_taken_for_one() -> None:
    said = run("tansy-subwoofer", "dead", "-a", "idle-current=99")
    assert said.exit_code == 1 and said.output.startswith("No single fault of this job")

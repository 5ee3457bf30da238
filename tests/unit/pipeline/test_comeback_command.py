"""`loombook comeback`: what it says, and what it says when it cannot."""

from __future__ import annotations

from click.testing import Result
from shipped_book import PINOUTS, loombook


def run(*words: str) -> Result:
    return loombook("comeback", *words, "--book", PINOUTS)


def test_a_line_that_failed_lists_its_causes_by_what_is_done_about_them() -> None:
    said = run("tansy-subwoofer", "--line", "sub-amp-turn-on-radio-on")
    assert said.exit_code == 0
    assert "1. make whole what runs from A.7 to fuse of the turn-on at A.7" in said.output
    assert "right luggage side: apart: turn-on wire to sub amp and sub amp turn-on" in said.output


def test_a_line_that_no_joint_decides_says_so() -> None:
    said = run("tansy-subwoofer", "--line", "lamps-before")
    assert said.output == "lamps-before: nothing of this circuit makes it fail by itself\n"


def test_wrong_use_is_a_sentence() -> None:
    assert 'is called "nowhere"' in run("tansy-subwoofer", "--line", "nowhere").output
    assert run("tansy-subwoofer", "--line", "nowhere").exit_code == 2
    assert "there are:" in run("no-such-job", "--line", "whine").output

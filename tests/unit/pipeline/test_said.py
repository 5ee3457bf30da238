"""What was forgiven is said by `find` in text and JSON; what shows one car forgives nothing."""

from __future__ import annotations

import json

import pytest
from shipped_book import PINOUTS, loombook


def test_find_says_what_it_read_as_something_else():
    done = loombook("find", "tasny", "switched", "-b", PINOUTS)
    assert done.output.startswith('"tasny" read as "tansy".\n')
    data = json.loads(
        loombook("find", "tasny", "switched", "-b", PINOUTS, "--format", "json").output
    )
    assert data["read_as"] == [{"said": "tasny", "as": ["tansy"]}]
    assert data["missed"] == ""


def test_find_says_why_nothing_fits():
    why = 'No Wexlow is called "rook"; Torvane has one.'
    done = loombook("find", "wexlow", "rook", "-b", PINOUTS)
    assert done.exit_code == 1
    assert done.output == f"Nothing in this book fits. {why}\n"
    data = json.loads(loombook("find", "wexlow rook", "-b", PINOUTS, "--format", "json").output)
    assert (data["answers"], data["missed"]) == ([], why)


@pytest.mark.parametrize(
    ("command", "name", "says"),
    [  # both commands ask the same function for the car: each of them once, each reason once
        (("show",), "wexlow rook", 'No Wexlow is called "rook"; Torvane has one.'),
        (
            ("plan", "-c", "cvn-2a"),
            "tasny",
            '"tasny" read as "tansy". Type: ostrel-tansy-2017-hatch-base',
        ),
    ],
)
def test_no_car_is_shown_or_planned_that_was_not_named(command, name, says):
    done = loombook(*command, name, "-b", PINOUTS)
    assert done.exit_code == 2
    assert says in done.output
    assert "PLAN" not in done.output.replace("loombook plan", "")

"""A test that goes through many cases loses none of them, and names each that fails."""

from __future__ import annotations

import pytest
from each_case import each


def failure_of(test) -> str:
    with pytest.raises(pytest.fail.Exception) as seen:
        test()
    return str(seen.value)


def test_every_case_is_tried_and_each_that_fails_is_named_with_its_reason():
    tried = []

    @each("number", [1, 2, 3, 4], ids=lambda number: f"case-{number}")
    def asked(number):
        tried.append(number)
        if number == 4:
            raise KeyError("four")
        assert number % 2

    said = failure_of(asked)
    assert tried == [1, 2, 3, 4]
    assert said.startswith("2 of 4 cases fail: 2. case-2, 4. case-4\n")
    assert "assert (2 % 2)" in said and "KeyError: 'four'" in said
    assert "case-1" not in said and "case-3" not in said


def test_cases_of_one_name_are_told_apart():
    @each("number", [1, 2], ids=lambda number: "same")
    def asked(number):
        raise ValueError(number)

    said = failure_of(asked)
    assert "1. same, 2. same" in said and "ValueError: 1" in said and "ValueError: 2" in said


@each("one, two", {"a": 1, "b": 2}.items())
def test_a_case_may_hold_several_arguments(one, two):
    assert (one, two) in {("a", 1), ("b", 2)}


def test_a_plain_failure_counts_and_no_case_at_all_is_one():
    @each("number", lambda: [1])
    def failing(number):
        pytest.fail("by hand")

    assert "by hand" in failure_of(failing)
    with pytest.raises(AssertionError, match="no case"):
        each("number", ())(failing)()


@pytest.mark.parametrize("most", [2, 3])
@each("number", lambda most: [0, most - 1])
def test_cases_may_depend_on_a_parameter(number):
    assert number < 3


@each("number", lambda: [1, 2])
@pytest.mark.parametrize("letter", "ab")
def test_other_arguments_and_fixtures_stay(number, letter, tmp_path):
    assert number in (1, 2) and letter in "ab" and tmp_path.is_dir()

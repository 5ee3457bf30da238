"""What several plans of a car say stands once in its data file, and can be put back."""

from __future__ import annotations

from whole_plans import whole_plans

from builder.rendering.plans_data import SHARED_LISTS, plans_data

NOTHING: dict[str, list[object]] = {name: [] for name in SHARED_LISTS}


def test_what_two_plans_say_stands_once_and_each_finds_its_own_in_its_order() -> None:
    one, two, other = {"id": "a", "low": 1}, {"id": "b", "low": None}, {"id": "a", "low": 1.5}
    plans = [
        {**NOTHING, "grade": "good", "tests": [one, two, one], "purpose": "x"},
        {**NOTHING, "grade": "unproved", "tests": [other, two, one], "purpose": "x"},
        {**NOTHING, "grade": "good", "tests": [], "purpose": ""},
    ]
    said = plans_data(plans)
    assert said["plans_share"] == {**NOTHING, "tests": [one, two, other]}
    assert [plan["tests"] for plan in said["plans"]] == [[0, 1, 0], [2, 1, 0], []]
    assert whole_plans(said) == plans


def test_the_same_words_in_another_list_are_another_thing() -> None:
    plan = {**NOTHING, "because": [{"x": 1}], "ladder": [{"x": 1}]}
    assert plans_data([plan])["plans_share"] == {**plan}
    assert plans_data([]) == {"plans": [], "plans_share": NOTHING}

"""What bay mode says over each screen of how the car stands."""

from __future__ import annotations

from dataclasses import replace

from builder.planning.sheet_rows import Stands, Step
from builder.rendering.pages.bay_mode import standing
from builder.rendering.pages.job_steps import hands_time


def step(*stands: Stands) -> Step:
    return Step(1, "build", "", "", "", (), (), "", stands=stands)


def test_how_the_car_stands_is_said_in_the_few_words_of_a_phone() -> None:
    said = standing(
        step(
            Stands("battery", "waited"), Stands("main fuse", "absent"), Stands("radio", "pulled"),
            Stands("key", "off"), Stands("play", "off"), Stands("seat", "loose"),
        )
    )  # fmt: skip
    assert said == "battery off, its wait over · radio out · key off · seat loose"


def test_a_time_is_said_no_closer_than_the_minutes_are_known() -> None:
    def said(minutes: float) -> str:
        return hands_time([replace(step(), takes_min=minutes)])

    given = (0.0, 12.0, 13.0, 89.9, 90.0, 164.0, 166.0)
    assert [said(each).removeprefix("about ") for each in given] == [
        "5 min", "10 min", "15 min", "90 min", "90 min", "2 h 45 min", "2 h 45 min",
    ]  # fmt: skip
    assert hands_time([replace(step(), takes_min=each) for each in (40.0, 50.0)]) == "about 90 min"
    parts = [replace(step(), takes_min=62.0), replace(step(), phase="close", takes_min=62.0)]
    assert [hands_time([each]) for each in parts] == ["about 60 min"] * 2
    assert hands_time(parts) == "about 2 h"

"""What bay mode says over each screen of how the car stands."""

from __future__ import annotations

from builder.planning.sheet_rows import Stands, Step
from builder.rendering.pages.bay_mode import standing


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

"""The questions of a new job: the car, what is fitted, what plays where, where it runs."""

from __future__ import annotations

from typing import Any

from builder.editing.drafts.job_lines import (
    AMPLIFIER_EXAMPLE,
    ROUTE_EXAMPLE,
    SPEAKER_EXAMPLE,
    amplifier_line,
    route_line,
    speaker_line,
)
from builder.editing.drafts.question import Answers, Question, every, one, slug

QUESTIONS = (
    Question("title", "What is done, in few words", ("title",)),
    Question("vehicle", "The vehicle's record", ("vehicle",)),
    Question("car", "A random word for this car, never its chassis number", ("car", "tag")),
    Question("year", "Its model year", ("car", "year")),
    Question("data", "measured (a real job) or invented", ("data",), "measured"),
    Question("wanted", "What the customer asked for, in their words", ("wanted",)),
    Question("protect", "Sounds that must work as before, with commas; none", ("protect",)),
    Question("converter", "The converter's record", ("converter",)),
    Question("converter-place", "Where the converter goes", ("converter_place",)),
    Question(
        "amplifier",
        f"One amplifier a line: {AMPLIFIER_EXAMPLE}",
        many=True,
        read=amplifier_line,
    ),
    Question("speaker", f"One new speaker a line: {SPEAKER_EXAMPLE}", many=True),
    Question(
        "route",
        f"One measured route a line: {ROUTE_EXAMPLE}",
        many=True,
        read=route_line,
    ),
    Question("cables", "Cables on the shelf, with commas; none", ("cables",)),
    Question(
        "supply-lead", "Battery post to the amplifier in m", ("supply", "supply_lead_m"), "unknown"
    ),
    Question("ground-lead", "Ground lead in m", ("supply", "ground_lead_m"), "unknown"),
    Question(
        "fuse-to-battery",
        "Battery post to the main fuse in m",
        ("supply", "fuse_to_battery_m"),
        "unknown",
    ),
    Question("fuse-family", "Family of the main fuse", ("supply", "fuse_family"), "maxi"),
    Question("material", "Supply wire", ("supply", "material"), "unknown", asked=False),
    Question("ground-point", "Ground point", ("supply", "ground_point"), "unknown", asked=False),
    Question("listening", "heavy or light", ("supply", "listening"), "heavy", asked=False),
    Question("treatment", "Treatment", ("treatment",), "auto", asked=False),
    Question("edited", "Day of writing, YYYY-MM-DD", ("edited",), "", asked=False),
)


def finish(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Amplifiers, speakers and routes from their lines."""
    data["id"] = slug(one(answers, "id") or data["title"])
    data["car"]["answers"] = []
    data["amplifiers"] = [amplifier_line(text) for text in every(answers, "amplifier")]
    names = [each["name"] for each in data["amplifiers"]]
    data["speakers"] = [speaker_line(text, names) for text in every(answers, "speaker")]
    data["routes"] = [route_line(text) for text in every(answers, "route")]
    unknown = ("locks_per_day", "wake_hold_min", "idle_a", "parked_ma")
    data["supply"] |= dict.fromkeys(unknown, "unknown")
    data["other_turn_on_loads"] = []
    return data

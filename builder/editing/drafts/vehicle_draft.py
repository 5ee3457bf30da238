"""The questions of a new vehicle: the car, what could hurt, then plug by plug and pin by pin."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from builder.editing.drafts.compact import PinLine, pin_line, years_of
from builder.editing.drafts.declared_questions import declared_questions
from builder.editing.drafts.pin_text import trims_meet
from builder.editing.drafts.question import AnswerError, Answers, Question, every, one, slug
from builder.editing.drafts.vehicle_lines import (
    access_line,
    claim_line,
    passage_line,
    photo_line,
    plug_line,
    sound_line,
)
from builder.model.words import PAIRED

_ORDER = (
    "make", "model", "years", "variant", "bodies", "trims", "drive-side", "radios", "data",
    "outputs", "factory-amplifier", "amplifier-location", "hybrid", "high-voltage-zones",
    "restraint-zones", "protected-sounds", "plug", "pin", "claims",
)  # fmt: skip
"""What is asked of who begins a vehicle, in this order; all else can be given as an option."""
_LINES = (
    Question("years", "Model years it holds for, like 2016-2019", read=years_of),
    Question(
        "pin", "One pin a line: A 4 acc yellow/red / A 1 fl+ white / A 6 empty", many=True,
        read=pin_line,
    ),
    Question(
        "claims", "Where the pins come from, who says so and when: paper alder-pit-audio "
        "2024-05-10; none to measure first", default="none", read=claim_line,
    ),
    Question(
        "photo", "A photo beside the record and what it shows: radio-a.jpg plug A from the wires",
        ("photos",), default="", many=True, read=photo_line,
    ),
)  # fmt: skip
_READERS = {
    "protected-sounds": sound_line,
    "plug": plug_line,
    "access": access_line,
    "passages": passage_line,
}
_WHEN: dict[str, Callable[[Answers], bool]] = {
    "amplifier-location": lambda answers: (
        one(answers, "factory-amplifier") not in ("", "none", "unknown")
    ),
    "high-voltage-zones": lambda answers: one(answers, "hybrid") != "no",
}


def _questions() -> tuple[Question, ...]:
    """The lines of sounds, plugs and pins between what the declarations ask."""
    asked = {each.name: each for each in (*_LINES, *declared_questions("vehicle", _READERS))}
    asked |= {name: replace(asked[name], when=when) for name, when in _WHEN.items()}
    rest = (replace(each, asked=False) for name, each in asked.items() if name not in _ORDER)
    return (*(asked[name] for name in _ORDER), *rest)


QUESTIONS = _questions()


def finish(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The record from what the questions with a place have given, and from the other answers."""
    first, last = years_of(one(answers, "years"))
    data["scope"] |= {"year_from": first, "year_to": last}
    named = one(answers, "id") or f"{data['make']} {data['model']} {first} {data['variant']}"
    data["id"] = slug(named)
    data["safety"].setdefault("high_voltage_zones", [])
    data |= {"how_to_tell": [], "sessions": []}
    lines = [pin_line(text) for text in every(answers, "pin")]
    data["plugs"] = _with_pins(data["plugs"], lines)
    said = claim_line(one(answers, "claims", "none"))
    if said:
        _add_claims(data["plugs"], said)
    pins = [pin for plug in data["plugs"] for pin in plug["pins"]]
    data["channels"] = channels_of_pins(pins)
    return data


def _with_pins(plugs: list[dict[str, Any]], lines: list[PinLine]) -> list[dict[str, Any]]:
    known = [plug["id"] for plug in plugs]
    stray = next((line for line in lines if line.plug not in known), None)
    if stray is not None:
        raise AnswerError(f"no plug {stray.plug} is described; there are: {', '.join(known)}")
    kept: list[PinLine] = []
    for line in lines:
        there = [each for each in kept if _of_one_car(each, line)]
        if any(each != line for each in there):
            raise AnswerError(f"{line.plug}.{line.cavity} is given twice, and not alike")
        kept += [] if there else [line]
    for plug in plugs:
        mine = [line for line in kept if line.plug == plug["id"]]
        plug["empty"] = [line.cavity for line in mine if line.pin is None]
        plug["pins"] = [line.pin for line in mine if line.pin is not None]
    return plugs


def _of_one_car(one: PinLine, other: PinLine) -> bool:
    """Whether two lines are about one cavity of one car: trims may have lines of their own."""
    some, others = ((line.pin or {}).get("only_if", {}).get("trims", ()) for line in (one, other))
    return one[:2] == other[:2] and trims_meet(some, others)


def _add_claims(plugs: list[dict[str, Any]], said: dict[str, Any]) -> None:
    """What somebody says of every described pin."""
    for pin in (pin for plug in plugs for pin in plug["pins"]):
        if pin["function"] not in ("unknown", "not_used"):
            pair = {key: pin[key] for key in ("channel", "leg") if key in pin}
            pin["claims"] = [{**said, "says": pin["function"], **pair}]


def channels_of_pins(pins: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """What each speaker pair carries, as far as the pins say it."""
    names = dict.fromkeys(pin.get("channel") for pin in pins if pin.get("function") in PAIRED)
    return [{"channel": name, "driven_by": "radio", "band": "unknown"} for name in names if name]

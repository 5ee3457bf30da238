"""Answers to a new converter, amplifier, cable or housing: what stands on a data sheet."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from builder.editing.drafts.compact import pairs_of, power_of, rows_of, size_of
from builder.editing.drafts.declared_questions import declared_questions
from builder.editing.drafts.part_lines import (
    bass_line,
    gain_line,
    sensitivity_line,
    singles_line,
    supply_line,
)
from builder.editing.drafts.question import Answers, Question, one, slug

CONVERTER = declared_questions(
    "converter",
    {"gain": gain_line, "supply": partial(supply_line, "converter"), "bass-correction": bass_line},
)
AMPLIFIER = declared_questions(
    "amplifier",
    {
        "power": power_of,
        "sensitivity": sensitivity_line,
        "supply": partial(supply_line, "amplifier"),
    },
)
HOUSING = declared_questions("housing", {"rows": rows_of})


def _cable_question(question: Question) -> Question:
    """The size goes where its unit says; a power cable has no pairs."""
    if question.name == "size":
        return replace(question, path=())
    if question.name == "pairs":
        return replace(question, when=lambda answers: one(answers, "use") != "power")
    return question


_CABLE = declared_questions("cable", {"size": size_of, "pairs": pairs_of, "singles": singles_line})
CABLE = tuple(map(_cable_question, _CABLE))


def finish_converter(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """What it takes after summing, which nobody was asked."""
    if data["sum"] != "none":
        data["input"]["after_sum_max_v_rms"] = "unknown"
    return _named(data, answers)


def finish_amplifier(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The lowest load of an amplifier: the lowest that its power is stated for."""
    channel = data["channels"][0]
    channel["min_ohm"] = min(load["ohm"] for load in channel["power"])
    return _named(data, answers)


def finish_cable(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Size and single conductors of a cable."""
    data |= size_of(one(answers, "size"))
    if not data["singles"]:
        del data["singles"]
    return _named(data, answers)


def finish_housing(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The id of a housing from its shape, when nobody named one."""
    return _named(data, answers)


def _named(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    return data | {"id": slug(one(answers, "id") or data["name"])}

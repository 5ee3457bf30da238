"""Answers to a new part: what stands on a data sheet, and what a loom joins."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from builder.editing.drafts.compact import pairs_of, power_of, rows_of
from builder.editing.drafts.declared_questions import declared_questions
from builder.editing.drafts.loom_lines import branch_line, loom_wire_line, output_line
from builder.editing.drafts.part_lines import gain_line, key_line, singles_line
from builder.editing.drafts.pin_text import size_of
from builder.editing.drafts.question import NOTHING, Answers, Question, one, slug

CONVERTER = declared_questions("converter", {"gain": gain_line})
AMPLIFIER = declared_questions("amplifier", {"power": power_of})
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
LOOM = declared_questions("loom", {"branch": branch_line, "wire": loom_wire_line})
INTERFACE = declared_questions("interface", {"output": output_line})
CONTRIBUTOR = declared_questions("contributor", {"public-key": key_line})


def finish_converter(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """What it takes after summing, which nobody was asked."""
    if data["sum"] != "none":
        data["input"]["after_sum_max_v_rms"] = "unknown"
    return named(data, answers)


def finish_amplifier(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The lowest load of an amplifier: the lowest that its power is stated for."""
    channel = data["channels"][0]
    channel["min_ohm"] = min(load["ohm"] for load in channel["power"])
    return named(data, answers)


def finish_cable(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Size and single cores of a cable."""
    data |= size_of(one(answers, "size"))
    if not data["singles"]:
        del data["singles"]
    return named(data, answers)


def finish_loom(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """None is no maker."""
    if data["maker"].lower() in NOTHING:
        del data["maker"]
    return named(data, answers)


def named(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """A part is called what its name says, when nobody says otherwise."""
    return data | {"id": slug(one(answers, "id") or data["name"])}

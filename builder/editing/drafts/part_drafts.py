"""Answers to a new part: what stands on a data sheet, and what a loom joins."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from builder.editing.drafts.compact import pairs_of, power_of, rows_of, size_of
from builder.editing.drafts.declared_questions import declared_questions
from builder.editing.drafts.loom_lines import (
    branch_line,
    end_line,
    interface_supply_line,
    loom_wire_line,
    output_line,
)
from builder.editing.drafts.part_lines import (
    bass_line,
    gain_line,
    sensitivity_line,
    singles_line,
    supply_line,
)
from builder.editing.drafts.question import NOTHING, Answers, Question, every, one, slug

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


_LOOM = {"end": end_line, "branch": branch_line, "wire": loom_wire_line}
_INTERFACE = {"output": output_line, "supply": interface_supply_line}


def _a_line_each(question: Question) -> Question:
    """Lists of parts take a line for each of them."""
    return replace(question, many=question.name in ("end", "branch", "wire", "output"))


LOOM = tuple(map(_a_line_each, declared_questions("loom", _LOOM)))
INTERFACE = tuple(map(_a_line_each, declared_questions("interface", _INTERFACE)))


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


def finish_loom(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Ends, branches and wires of a loom from their lines; none is no maker."""
    if data["maker"].lower() in NOTHING:
        del data["maker"]
    data["ends"] = [end_line(text) for text in every(answers, "end")]
    data["branches"] = [branch_line(text) for text in every(answers, "branch")]
    data["wires"] = [loom_wire_line(text) for text in every(answers, "wire")]
    return _named(data, answers)


def finish_interface(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The outputs of an interface from their lines."""
    data["outputs"] = [output_line(text) for text in every(answers, "output")]
    return _named(data, answers)


def _named(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    return data | {"id": slug(one(answers, "id") or data["name"])}

"""The questions of new converters, amplifiers, cables and housings: what stands on a data sheet."""

from __future__ import annotations

from functools import partial
from typing import Any

from builder.editing.drafts.compact import (
    pairs_of,
    power_of,
    range_of,
    rows_of,
    size_of,
)
from builder.editing.drafts.part_lines import (
    bass_line,
    figure_or_word,
    singles_line,
    supply_line,
)
from builder.editing.drafts.question import AnswerError, Answers, Question, one, read_text, slug

_DATA = Question("data", "measured (a real thing) or invented", ("data",), "measured")
_NAME = Question("name", "Name printed on it", ("name",))
_MAKER = Question("maker", "Maker", ("maker",))


def _active(answers: Answers) -> bool:
    return one(answers, "kind") != "passive"


CONVERTER = (
    _NAME,
    _MAKER,
    _DATA,
    Question("kind", "active (has a supply) or passive", ("kind",)),
    Question("inputs", "Number of inputs", ("inputs",)),
    Question("outputs", "Number of outputs", ("outputs",)),
    Question("input-type", "Input: floating, ground_referenced or switchable", ("input", "type")),
    Question("input-max", "Most an input takes, clean, in V RMS", ("input", "max_v_rms")),
    Question("input-ohm", "Input impedance in ohms", ("input", "impedance_ohm")),
    Question("sum", "Summing: none, same_side or any", ("sum",), "none"),
    Question("gain", "Gain, line out for speaker in: 0.05-2, or one figure when it is fixed"),
    Question("output-max", "Most it gives, in V RMS", ("output", "max_v_rms")),
    Question(
        "supply",
        "Least supply V, idle A, fuse A: 9 0.15 2",
        when=_active,
        read=partial(supply_line, "converter"),
    ),
    Question("remote-in", "Turn-on input draw in mA, or no", when=_active),
    Question("remote-out", "Turn-on output in mA, or none", when=_active),
    Question("offset-wake", "Wakes on bias from how many V, or no", default="no", when=_active),
    Question(
        "signal-wake", "Wakes on sound and holds how many s, or no", default="no", when=_active
    ),
    Question(
        "input-load",
        "Load resistor across each input in ohms, or none",
        ("input_load_ohm",),
        "none",
    ),
    Question("bass-correction", "Bass given back: dB at Hz like 12 at 40, or no", default="no"),
    Question("delay-adjust", "Can it align two inputs in time", ("delay_adjust",), "no"),
)

AMPLIFIER = (
    _NAME,
    _MAKER,
    _DATA,
    Question("class", "Class: AB or D", ("class",)),
    Question("channels", "Number of channels", ("channels", 0, "count")),
    Question("use", "full_range or sub", ("channels", 0, "use")),
    Question(
        "power",
        "Watts into ohms of one channel, like 60 into 4, 85 into 2",
        ("channels", 0, "power"),
        read=power_of,
    ),
    Question("bridgeable", "Bridgeable", ("channels", 0, "bridgeable"), "unknown"),
    Question("sensitivity", "Input for full power in V RMS, like 0.25-4", read=range_of),
    Question(
        "supply",
        "Least supply V, idle A, fuse A: 9 0.9 40",
        read=partial(supply_line, "amplifier"),
    ),
    Question("turn-on-draw", "Turn-on input draw in mA", ("turn_on", "draw_ma")),
    Question("input-type", "Line input", ("input_type",), "unknown"),
    Question("speaker-level-in", "Takes speaker level", ("speaker_level_in",), "unknown"),
    Question("output-floating", "Neither output leg is ground", ("output_floating",), "unknown"),
)

CABLE = (
    _NAME,
    _DATA,
    Question("use", "multi_conductor, speaker_pair or power", ("use",)),
    Question("size", "Size: 18 awg or 0.75 mm2", read=size_of),
    Question("material", "copper, copper_clad_aluminium or unknown", ("material",), "unknown"),
    Question("jacket", "Colour of the jacket, or none", ("jacket",)),
    Question(
        "pairs",
        "Pairs: brown brown/black, orange orange/black",
        ("pairs",),
        read=pairs_of,
        when=lambda answers: one(answers, "use") != "power",
    ),
    Question(
        "singles",
        "Single conductors: blue, red/white; none without one",
        read=singles_line,
    ),
    Question("shield", "Has it a shield", ("shield",), "no"),
)

HOUSING = (
    _NAME,
    _DATA,
    Question("seen-from", "The face you look at: wire_side or mating_side", ("seen_from",)),
    Question("latch", "The latch as you hold it: top, bottom, left or right", ("latch",)),
    Question("rows", "Rows as you see them: 1-10 / 11-20, _ for a gap", ("rows",), read=rows_of),
    Question("blade", "Terminal width in mm", ("blade_mm",)),
    Question("blocked", "Cavities moulded shut, with commas", ("blocked",), "none"),
)


def finish_converter(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Gain, supply, turn-on and bass of a converter from their compact answers."""
    gain = one(answers, "gain")
    try:
        low, high = range_of(gain)
        data["gain"] = {"kind": "adjustable", "min": low, "max": high}
    except AnswerError:
        value = read_text("converter", ("gain", "value"), gain)
        data["gain"] = {"kind": "fixed", "value": value}
    if data["sum"] != "none":
        data["input"]["after_sum_max_v_rms"] = "unknown"
    bass = one(answers, "bass-correction", "no")
    data["bass_rolloff_correction"] = "no" if bass == "no" else bass_line(bass)
    return _named(data | _active_parts(data, answers), answers)


def _active_parts(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    if data["kind"] != "active":
        return {}
    asked = (("remote_in", "draw_ma"), ("offset_wake", "min_v"), ("signal_wake", "hold_s"))
    turn_on = {
        way: figure_or_word(answers, way.replace("_", "-"), "no", ("turn_on", way, figure))
        for way, figure in asked
    }
    out = figure_or_word(answers, "remote-out", "none", ("remote_out", "max_ma"))
    return {
        "supply": supply_line("converter", one(answers, "supply")),
        "turn_on": turn_on,
        "remote_out": out,
    }


def finish_amplifier(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Supply, sensitivity and lowest load of an amplifier."""
    low, high = range_of(one(answers, "sensitivity"))
    channel = data["channels"][0]
    channel["min_ohm"] = min(load["ohm"] for load in channel["power"])
    channel["sensitivity"] = {"min_v_rms": low, "max_v_rms": high}
    data["supply"] = supply_line("amplifier", one(answers, "supply"))
    return _named(data, answers)


def finish_cable(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """Size and single conductors of a cable."""
    data |= size_of(one(answers, "size"))
    singles = singles_line(one(answers, "singles", "none"))
    if singles:
        data["singles"] = singles
    return _named(data, answers)


def finish_housing(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The id of a housing from its shape, when nobody named one."""
    return _named(data, answers)


def _named(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    return data | {"id": slug(one(answers, "id") or data["name"])}

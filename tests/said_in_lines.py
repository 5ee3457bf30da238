"""Pins and readings of records as the lines that somebody would write in their place."""

from __future__ import annotations

from typing import Any


def pin_line(pin: dict[str, Any]) -> str:
    """A pin as somebody would write it: cavity, what it does, colours, size, trims."""
    sign = {"positive": "+", "negative": "-"}.get(pin.get("leg", ""), "")
    wire = pin.get("wire", {})
    size = f"{wire['size_mm2']} mm2" if "size_mm2" in wire else ""
    size = f"{wire['size_awg']} awg" if "size_awg" in wire else size
    trims = pin.get("only_if", {}).get("trims", [])
    said = (
        str(pin["cavity"]),
        "" if pin["function"] == "speaker" else pin["function"],
        pin.get("channel", "") + sign,
        "/".join(wire[key] for key in ("base", "stripe") if key in wire),
        size,
        f"only {', '.join(trims)}" if trims else "",
    )
    return " ".join(word for word in said if word)


def sayable(pin: dict[str, Any]) -> bool:
    """Whether a line can say all of a pin."""
    keys = {"cavity", "function", "channel", "leg", "wire", "only_if"}
    trims_only = set(pin.get("only_if", {"trims": []})) == {"trims"}
    return pin.keys() <= keys and trims_only and "marks" not in pin.get("wire", {})


def bare(pin: dict[str, Any]) -> dict[str, Any]:
    """A pin without what no line says of it."""
    kept = {key: pin[key] for key in pin if key not in ("readings", "claims", "note", "fuse")}
    return {key: value for key, value in kept.items() if key not in ("max_source_ma", "level_v")}


def reading_line(reading: dict[str, Any]) -> str:
    """A reading as somebody would write it: visit, state, figure, and what stands beside it."""
    beside = {"battery_v": "battery", "minutes": "minutes", "load": "load", "against": "against"}
    unit = {"dc_v": "V", "ac_v": "VAC", "ohm": "ohm", "hz": "Hz", "ma": "mA"}
    said = [f"{word} {reading[key]}" for key, word in beside.items() if key in reading]
    figure = f"{reading['value']} {unit[reading['quantity']]}"
    return " ".join([reading["session"], reading["state"], figure, *said])


def plain(reading: dict[str, Any]) -> bool:
    """Whether a line can say all of a reading, and says it in no more words than there are."""
    keys = {"session", "state", "quantity", "value", "battery_v", "minutes", "load", "against"}
    usual = reading.get("load") != "none" and reading.get("against") != "battery_negative"
    return reading.keys() <= keys and usual and reading["quantity"] in ("dc_v", "ma")

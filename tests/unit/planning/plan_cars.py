"""Small invented cars and converters for the planner's tests, built as records are."""

from __future__ import annotations

import copy
from typing import Any

from builder.declaring import read
from builder.model.parts import Converter
from builder.model.vehicle import Vehicle
from builder.parsing.vehicle import parse_vehicle

Data = dict[str, Any]

FEATURES = ("start_stop", "hybrid", "noise_cancellation", "engine_sound", "emergency_call")


def reading(state: str, value: Any, **more: Any) -> Data:
    """One reading of session s1; volts get the battery volts beside them."""
    base: Data = {"session": "s1", "state": state, "quantity": "dc_v", "value": value}
    if more.get("quantity", "dc_v") == "dc_v":
        base["battery_v"] = 12.6
    return base | more


_PAIR_OHM = 3.3
"""What a speaker of 4 Ω reads."""


def bridged_pair(
    channel: str, first: int, bias_v: float = 6.4, ohm: float = _PAIR_OHM
) -> list[Data]:
    """Two legs in cavities `first` and `first` + 1 with everything measured."""
    positive, negative = first, first + 1
    return [
        _leg(channel, "positive", positive, negative, bias_v, ohm),
        _leg(channel, "negative", negative, positive, bias_v, ohm),
    ]


def _leg(channel: str, leg: str, cavity: int, other: int, bias_v: float, ohm: float) -> Data:
    return {
        "cavity": cavity,
        "function": "speaker",
        "channel": channel,
        "leg": leg,
        "wire": {"base": "white", "stripe": "black" if leg == "negative" else "grey"},
        "readings": [
            reading("radio_on_zero", bias_v),
            reading("unplugged", ohm, quantity="ohm", against=str(other)),
            reading("unplugged", "open", quantity="ohm", against="body"),
        ],
    }


def claimed_pair(channel: str, first: int) -> list[Data]:
    """Two legs that somebody read off paper."""
    claim = {"by": "north", "date": "2023-01-01", "method": "paper", "says": "speaker"}
    pins = bridged_pair(channel, first)
    for pin in pins:
        pin.pop("readings")
        pin["claims"] = [claim | {"channel": channel, "leg": pin["leg"]}]
    return pins


def common_pair(channel: str, first: int) -> list[Data]:
    """Two legs of a common-ground output: no bias, the return on the body."""
    pins = bridged_pair(channel, first, bias_v=0.0)
    for pin, body_ohm in zip(pins, (3.4, 0.2), strict=True):
        pin["readings"][2]["value"] = body_ohm
    return pins


def accessory(cavity: int, **more: Any) -> Data:
    """A proved accessory wire."""
    return {
        "cavity": cavity,
        "function": "accessory",
        "readings": [
            reading("asleep", 0.02, minutes=65),
            reading("accessory", 12.3),
            reading("retained", 0.0),
        ],
    } | more


def retained(cavity: int, **more: Any) -> Data:
    """A proved retained accessory wire."""
    pin = accessory(cavity, function="retained")
    pin["readings"] = [
        reading("asleep", 0.03, minutes=65),
        reading("accessory", 12.4),
        reading("retained", 12.3),
    ]
    return pin | more


def amplifier_on(cavity: int, other_source_v: float = 12.1, **more: Any) -> Data:
    """An amplifier-on output; it follows the source when `other_source_v` is low."""
    return {
        "cavity": cavity,
        "function": "amplifier_on",
        "level_v": 12,
        "readings": [
            reading("radio_off", 0.0),
            reading("radio_on_zero", 12.1),
            reading("tuner", 12.1),
            reading("other_source", other_source_v),
            reading("radio_on_zero", 11.9, load="50ma"),
        ],
    } | more


def channel(name: str, **more: Any) -> Data:
    """What a pair carries: full band, 4 Ω, from the radio."""
    return {
        "channel": name, "driven_by": "radio", "speaker_ohm": 4, "band": "full",
        "level": {"label_w": 17, "label_ohm": 4},
    } | more  # fmt: skip


def plug(pins: list[Data], **more: Any) -> Data:
    """Plug A at the radio."""
    return {
        "id": "A", "name": "main", "unit": "radio", "location": "behind", "housing": "h",
        "shell_colours": ["grey"], "read_from": "wire_side", "pins": pins,
    } | more  # fmt: skip


def car(**more: Any) -> Vehicle:
    """A car with these parts of its record replaced; nothing unknown unless a test says so."""
    data: Data = {
        "id": "car", "data": "invented", "make": "Ostrel", "model": "Tansy", "variant": "base",
        "scope": {"year_from": 2016, "year_to": 2018, "drive_side": "left", "bodies": ["hatch"],
                  "markets": ["all"], "trims": ["base"], "radios": ["unknown"]},
        "how_to_tell": [], "protected_sounds": [],
        "power": {"battery": {"location": "unknown", "sensor_on_negative": "unknown"}},
        "radio": {"outputs": "bridged", "open_load_check": "no", "data_wake": "no"},
        "factory_amplifier": {"feed": "none"},
        "features": dict.fromkeys(FEATURES, "no"),
        "safety": {"restraint_wait_min": "unknown"},
        "sessions": [{
            "id": "s1", "by": "south", "date": "2024-05-01", "method": "meter",
            "read_from": "wire_side", "against": "battery_negative",
            "car": {"tag": "k7m2", "year": 2017, "trim": "base", "drive_side": "left"},
            "meter": {"impedance_mohm": 10, "true_rms": "yes"},
        }],
        "channels": [], "plugs": [],
    }  # fmt: skip
    return parse_vehicle(_as_its_speakers_read(copy.deepcopy(_whole(data | more))))


def _whole(data: Data) -> Data:
    """The record with what every record says, in the parts that a test gives in its own words."""
    return data | {
        "scope": {"options_any": [], "options_none": []} | data["scope"],
        "safety": {"restraint_zones": [], "high_voltage_zones": []} | data["safety"],
        "plugs": [{"shell_colours": ["unknown"], "pins": []} | plug for plug in data["plugs"]],
    }


def _as_its_speakers_read(data: Data) -> Data:
    """The pairs of 3.3 Ω that nobody asked for, where the car says that its speakers are others."""
    nominal = {each["channel"]: each.get("speaker_ohm") for each in data["channels"]}
    for pin in (pin for plug in data["plugs"] for pin in plug["pins"]):
        ohm = nominal.get(pin.get("channel"))
        for each in pin.get("readings", []):
            if isinstance(ohm, int | float) and each["value"] == _PAIR_OHM and ohm != 4:
                each["value"] = round(_PAIR_OHM * ohm / 4, 2)
    return data


def doors_car(pins: list[Data] | None = None, **more: Any) -> Vehicle:
    """Four proved full-range door pairs on plug A, and these further pins."""
    names = ("front-left", "front-right", "rear-left", "rear-right")
    pairs = [pin for i, name in enumerate(names) for pin in bridged_pair(name, 1 + 2 * i)]
    base: Data = {
        "channels": [channel(name) for name in names],
        "plugs": [plug([*pairs, *(pins or [])])],
    }
    return car(**(base | more))


def converter(identity: str = "cvn-2a", **more: Any) -> Converter:
    """One of the converters of the worked jobs, with these keys replaced."""
    data = _BASE | _CONVERTERS[identity] | {"id": identity, **more}
    if data["kind"] == "passive":
        data = {key: value for key, value in data.items() if key not in ("supply", "turn_on")}
    else:
        data["turn_on"] = _WAKES_BY_NOTHING | data["turn_on"]
    return read(Converter, data)


_WAKES_BY_NOTHING = dict.fromkeys(("remote_in", "offset_wake", "signal_wake"), "no")


_BASE: Data = {
    "data": "invented", "maker": "Odmarsh", "kind": "active", "sum": "none",
    "bass_rolloff_correction": "no", "input_load_ohm": "none", "delay_adjust": "no",
    "gain": {"kind": "adjustable", "min": 0.05, "max": 2.0},
    "supply": {"min_v": 9, "idle_a": 0.2, "fuse_a": 2},
    "remote_out": {"max_ma": 200, "delay_s": 1},
}  # fmt: skip


def _input(limit: float, ohm: float = 10000, kind: str = "floating", **more: Any) -> Data:
    return {"type": kind, "max_v_rms": limit, "impedance_ohm": ohm, "common_mode_max_v": 16} | more


def _wake(offset: bool, sound: bool = True) -> Data:
    return {
        "remote_in": {"draw_ma": 8, "threshold_v": 7.0},
        "offset_wake": {"min_v": 2.0} if offset else "no",
        "signal_wake": {"hold_s": 60} if sound else "no",
    }


_CONVERTERS: dict[str, Data] = {
    "cvn-2a": {
        "name": "CVN-2A", "inputs": 2, "outputs": 2, "input": _input(20), "turn_on": _wake(True),
        "output": {"max_v_rms": 8}, "bass_rolloff_correction": {"max_db": 12, "hz": 40},
    },
    "cvn-4a": {
        "name": "CVN-4A", "inputs": 4, "outputs": 4, "input": _input(20), "turn_on": _wake(False),
        "output": {"max_v_rms": 5},
    },
    "cvn-6s": {
        "name": "CVN-6S", "inputs": 6, "outputs": 6, "sum": "any", "turn_on": _wake(True),
        "input": _input(40, after_sum_max_v_rms=40), "output": {"max_v_rms": 10},
    },
    "cvn-2p": {
        "name": "CVN-2P", "kind": "passive", "inputs": 2, "outputs": 2, "input": _input(10, 100),
        "output": {"max_v_rms": 2}, "remote_out": "none",
        "gain": {"kind": "fixed", "value": 0.2},
    },
    "tsm-2g": {
        "name": "TSM-2G", "inputs": 2, "outputs": 2, "turn_on": _wake(False, False),
        "input": _input(12, 4700, "ground_referenced"), "output": {"max_v_rms": 4},
    },
}  # fmt: skip

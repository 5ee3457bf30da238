"""The questions of a new vehicle: the car, what could hurt, then plug by plug and pin by pin."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builder.editing.drafts.compact import PIN_EXAMPLE, PinLine, pin_line, years_of
from builder.editing.drafts.question import AnswerError, Answers, Question, every, one, slug
from builder.editing.drafts.vehicle_lines import (
    CLAIMS_EXAMPLE,
    PLUG_EXAMPLE,
    claim_line,
    plug_line,
    sound_line,
)
from builder.model.words import PAIRED

_SCOPE = "scope"
_NO = "none if you looked and there are none"


def _hybrid(answers: Answers) -> bool:
    return one(answers, "hybrid") != "no"


QUESTIONS = (
    Question("make", "Make", ("make",)),
    Question("model", "Model", ("model",)),
    Question("years", "Model years it holds for, like 2016-2019", read=years_of),
    Question("variant", "Which of its sisters, in words, like hatch, base", ("variant",)),
    Question("bodies", "Bodies, with commas, or all", (_SCOPE, "bodies"), "all"),
    Question("trims", "Trims, with commas, or all", (_SCOPE, "trims"), "all"),
    Question("drive-side", "Side the driver sits on", (_SCOPE, "drive_side")),
    Question("radios", "Part family printed on the radio", (_SCOPE, "radios"), "unknown"),
    Question("data", "measured (a real car) or invented", ("data",), "measured"),
    Question("outputs", "How the radio drives its speakers", ("radio", "outputs"), "unknown"),
    Question(
        "factory-amplifier",
        "What a factory amplifier is fed with, none without one",
        ("factory_amplifier", "feed"),
        "unknown",
    ),
    Question(
        "amplifier-location",
        "Where the factory amplifier is",
        ("factory_amplifier", "location"),
        "unknown",
        when=lambda answers: one(answers, "factory-amplifier") not in ("", "none", "unknown"),
    ),
    Question("hybrid", "Has it a high-voltage battery", ("features", "hybrid"), "unknown"),
    Question(
        "high-voltage-zones",
        f"Zones with high voltage, with commas; {_NO}",
        ("safety", "high_voltage_zones"),
        when=_hybrid,
    ),
    Question(
        "restraint-zones",
        f"Zones with restraint parts, with commas; {_NO}",
        ("safety", "restraint_zones"),
    ),
    Question(
        "protected-sounds",
        f"Sounds that must still be heard, like seat-belt chime: front-left; {_NO}",
        many=True,
        read=sound_line,
    ),
    Question("plug", f"One plug a line: {PLUG_EXAMPLE}", many=True),
    Question("pin", f"One pin a line: {PIN_EXAMPLE}", many=True, read=pin_line),
    Question(
        "claims",
        f"Where the pins come from, who says so and when: {CLAIMS_EXAMPLE}; none to measure first",
        default="none",
        read=claim_line,
    ),
    Question("generation", "Generation", ("generation",), "", asked=False),
    Question("markets", "Markets", (_SCOPE, "markets"), "all", asked=False),
    Question("options-any", "Options of which it has one", (_SCOPE, "options_any"), "none", False),
    Question("options-none", "Options it has not", (_SCOPE, "options_none"), "none", False),
    Question(
        "open-load-check",
        "Radio faults without a speaker",
        ("radio", "open_load_check"),
        "unknown",
        False,
    ),
    Question("data-wake", "Radio woken by data", ("radio", "data_wake"), "unknown", False),
    Question("start-stop", "Engine stops at a halt", ("features", "start_stop"), "unknown", False),
    Question(
        "noise-cancellation",
        "Noise cancelled through the speakers",
        ("features", "noise_cancellation"),
        "unknown",
        False,
    ),
    Question(
        "engine-sound",
        "Engine sound through the speakers",
        ("features", "engine_sound"),
        "unknown",
        False,
    ),
    Question(
        "emergency-call",
        "Car calls for help by itself",
        ("features", "emergency_call"),
        "unknown",
        False,
    ),
    Question(
        "battery-location",
        "Where the battery is",
        ("power", "battery", "location"),
        "unknown",
        False,
    ),
    Question(
        "battery-sensor",
        "Sensor on the battery's negative",
        ("power", "battery", "sensor_on_negative"),
        "unknown",
        False,
    ),
    Question(
        "restraint-wait",
        "The maker's wait after battery off, in minutes",
        ("safety", "restraint_wait_min"),
        "unknown",
        False,
    ),
    Question("edited", "Day of writing, YYYY-MM-DD", ("edited",), "", asked=False),
)


def finish(data: dict[str, Any], answers: Answers) -> dict[str, Any]:
    """The record from what the questions with a place have given, and from the other answers."""
    first, last = years_of(one(answers, "years"))
    data["scope"] |= {"year_from": first, "year_to": last}
    named = one(answers, "id") or f"{data['make']} {data['model']} {first} {data['variant']}"
    data["id"] = slug(named)
    data["safety"].setdefault("high_voltage_zones", [])
    data |= {"how_to_tell": [], "sessions": []}
    data["protected_sounds"] = [sound_line(text) for text in every(answers, "protected-sounds")]
    plugs = [plug_line(text) for text in every(answers, "plug")]
    lines = [pin_line(text) for text in every(answers, "pin")]
    data["plugs"] = _with_pins(plugs, lines)
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
    seen: set[tuple[str, int | str]] = set()
    for line in lines:
        if (line.plug, line.cavity) in seen:
            raise AnswerError(f"{line.plug}.{line.cavity} is given twice")
        seen.add((line.plug, line.cavity))
    for plug in plugs:
        mine = [line for line in lines if line.plug == plug["id"]]
        plug["empty"] = [line.cavity for line in mine if line.pin is None]
        plug["pins"] = [line.pin for line in mine if line.pin is not None]
    return plugs


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

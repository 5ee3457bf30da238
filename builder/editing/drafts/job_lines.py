"""Lines of a new job: an amplifier, a speaker, a route."""

from __future__ import annotations

import re
from typing import Any

from builder.editing.drafts.compact import channels_of
from builder.editing.drafts.question import AnswerError, read_text, slug

AMPLIFIER_EXAMPLE = "sub amp: amn-600, right luggage side"
SPEAKER_EXAMPLE = "subwoofer: sub, 2 ohm, 500 w, sub amp 1, from rear-left rear-right, lead 1.2"
ROUTE_EXAMPLE = "radio > converter: control, 6.0 m, right sill"


def _parts(text: str, count: int, example: str) -> tuple[str, list[str]]:
    name, colon, rest = text.partition(":")
    parts = [part.strip() for part in rest.split(",")]
    if not colon or len(parts) < count:
        raise AnswerError(f'"{text}" is not complete; type a line like {example}')
    return name.strip(), parts


def amplifier_line(text: str) -> dict[str, Any]:
    """`NAME: PART, PLACE`."""
    name, parts = _parts(text, 2, AMPLIFIER_EXAMPLE)
    return {"name": name, "part": slug(parts[0]), "place": ", ".join(parts[1:])}


def speaker_line(text: str, amplifiers: list[str]) -> dict[str, Any]:
    """`NAME: CHANNEL, OHM, WATT, AMPLIFIER CHANNEL, from PAIRS, lead METRES`."""
    name, parts = _parts(text, 6, SPEAKER_EXAMPLE)
    place = ("speakers", 0)
    driven = re.fullmatch(r"(.+?) +([0-9]+)", parts[3])
    if driven is None or driven[1] not in amplifiers:
        raise AnswerError(f'"{parts[3]}" names no amplifier and channel; known: {amplifiers}')
    return {
        "name": name,
        "channel": channels_of(parts[0])[0],
        "nominal_ohm": read_text("job", (*place, "nominal_ohm"), parts[1]),
        "rated_w_rms": read_text("job", (*place, "rated_w_rms"), parts[2]),
        "existing": "no",
        "lead": {
            "length_m": read_text("job", (*place, "lead", "length_m"), _after(parts[5], "lead"))
        },
        "driven_by": {"amplifier": driven[1], "channel": int(driven[2])},
        "from": channels_of(_after(parts[4], "from")),
    }


def _after(text: str, word: str) -> str:
    if not text.startswith(f"{word} "):
        raise AnswerError(
            f'"{text}" should start with "{word} "; type a line like {SPEAKER_EXAMPLE}'
        )
    return text.removeprefix(word)


def route_line(text: str) -> dict[str, Any]:
    """`FROM > TO: CARRIES, METRES, ZONE ...`."""
    ends, parts = _parts(text, 2, ROUTE_EXAMPLE)
    start, arrow, end = ends.partition(">")
    if not arrow:
        raise AnswerError(f'"{ends}" has no ">"; type a line like {ROUTE_EXAMPLE}')
    return {
        "from": start.strip(),
        "to": end.strip(),
        "carries": read_text("job", ("routes", 0, "carries"), parts[0]),
        "length_m": read_text("job", ("routes", 0, "length_m"), parts[1]),
        "zones": [zone for zone in parts[2:] if zone],
    }

"""Lines of a new job: an amplifier, a speaker, a route, a cable through a bulkhead."""

from __future__ import annotations

import re
from typing import Any

from builder.editing.drafts.compact import channels_of
from builder.editing.drafts.question import AnswerError, IncompleteError, read_text, slug


def _parts(text: str, count: int) -> tuple[str, list[str]]:
    name, colon, rest = text.partition(":")
    parts = [part.strip() for part in rest.split(",")]
    if not colon or len(parts) < count:
        raise IncompleteError(text)
    return name.strip(), parts


def amplifier_line(text: str) -> dict[str, Any]:
    """`NAME: PART, PLACE`."""
    name, parts = _parts(text, 2)
    return {"name": name, "part": slug(parts[0]), "place": ", ".join(parts[1:])}


def speaker_line(text: str) -> dict[str, Any]:
    """`NAME: CHANNEL, OHM, WATT, AMPLIFIER CHANNEL, from PAIRS, lead METRES`."""
    name, parts = _parts(text, 6)
    place = ("speakers", 0)
    driven = re.fullmatch(r"(.+?) +([0-9]+)", parts[3])
    if driven is None:
        raise AnswerError(f'"{parts[3]}" names no amplifier and channel')
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
        raise AnswerError(f'"{text}" should start with "{word} "')
    return text.removeprefix(word)


def route_line(text: str) -> dict[str, Any]:
    """`FROM > TO: CARRIES, METRES, ZONE ...`."""
    ends, parts = _parts(text, 2)
    start, arrow, end = ends.partition(">")
    if not arrow:
        raise IncompleteError(text)
    return {
        "from": start.strip(),
        "to": end.strip(),
        "carries": read_text("job", ("routes", 0, "carries"), parts[0]),
        "length_m": read_text("job", ("routes", 0, "length_m"), parts[1]),
        "zones": [zone for zone in parts[2:] if zone],
    }


def pass_line(text: str) -> dict[str, Any]:
    """`THROUGH: CARRIES + CARRIES ..., SEAL, drip loop YES`."""
    through, parts = _parts(text, 3)
    place = ("passes", 0)
    carried = [read_text("job", (*place, "carries", 0), one) for one in parts[0].split("+")]
    return {
        "through": through,
        "carries": carried,
        "seal": read_text("job", (*place, "seal"), parts[1]),
        "drip_loop": read_text("job", (*place, "drip_loop"), _after(parts[2], "drip loop")),
    }

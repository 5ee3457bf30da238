"""What bay mode shows of a step beside its words: how the car stands, and the plug with its cavity.

Bay mode is the same sheet on a phone, one step or one reading a screen; a script turns the pages.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, get_args

from markupsafe import Markup

from builder.model.housing import Housing
from builder.model.plugs import Pin, Plug
from builder.model.words import View
from builder.planning.sheet_rows import Stands, Step
from builder.planning.words import HowItStands
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.canvas import identifier
from builder.rendering.drawings.plug_faces import draw_face
from builder.rendering.drawings.swatch import swatch
from builder.rendering.drawings.wire_colours import wire_words
from builder.rendering.pages.wording import plain

_SAID: Mapping[tuple[str, HowItStands], str] = {
    ("battery", "waited"): "battery off, its wait over",
    ("main fuse", "absent"): "",
    ("radio", "fitted"): "radio in place",
    ("radio", "pulled"): "radio out",
    ("key", "accessory"): "accessory",
    ("key", "run"): "run",
    ("key", "engine"): "engine on",
    ("key", "asleep"): "asleep",
    ("key", "retained"): "key off, not yet asleep",
    ("key", "door_open"): "key off, a door open",
    ("key", "crank"): "cranking",
    ("key", "auto_restart"): "engine stopped by itself",
    ("key", "lights_on"): "lights on",
    ("key", "lights_dimmed"): "lights dimmed",
    ("key", "lights_off"): "lights off",
    ("play", "off"): "",
    ("play", "zero"): "volume 0",
    ("play", "quiet"): "test tone, quiet",
    ("play", "tone"): "test tone",
    ("play", "tuner"): "tuner playing",
    ("play", "other"): "another source playing",
    ("play", "loud"): "loud music",
}
"""How it stands, in the few words that a phone has room for; "" is not worth them."""


def standing(step: Step) -> str:
    """Return how the car stands in a step: "battery on · radio out · run"."""
    said = (_SAID.get((each.what, each.value), _other(each)) for each in step.stands)
    return " · ".join(words for words in said if words)


def _other(stands: Stands) -> str:
    return f"{stands.what} {plain(stands.value)}"


class ReadPlug(NamedTuple):
    """A plug that lines of the sheet read: both faces, and the wire at each cavity read."""

    id: str
    faces: tuple[Markup, ...]
    wires: tuple[tuple[str, Markup, str], ...]  # cavity, sample, words


def plugs_to_read(pack: WorkPack, parts: JobParts) -> list[ReadPlug]:
    """Return each plug with a cavity that a line of the sheet reads, side of its wires first."""
    read = {(test.reading.plug, test.reading.cavity) for test in pack.tests if test.reading}
    housings = parts.shelf.housings
    return [
        ReadPlug(
            plug.id,
            _both_faces(housings[plug.housing], plug),
            tuple(_wire_at(pin) for pin in plug.pins if (plug.id, pin.cavity) in read),
        )
        for plug in parts.vehicle.plugs
        if plug.id in {at for at, _ in read} and plug.housing in housings
    ]


def _wire_at(pin: Pin) -> tuple[str, Markup, str]:
    return pin.cavity, swatch(pin.wire), wire_words(pin.wire)


def _both_faces(housing: Housing, plug: Plug) -> tuple[Markup, ...]:
    key = identifier("bay", plug.id)
    return tuple(draw_face(housing, plug, view, key) for view in get_args(View))

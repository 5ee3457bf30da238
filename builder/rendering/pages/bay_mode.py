"""What bay mode shows of a step beside its words: how the car stands, and the plug with its cavity.

Bay mode is the same sheet on a phone, one step or one reading a screen; a script turns the pages.
"""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from builder.planning.sheet_rows import Stands, Step
from builder.planning.words import HowItStands
from builder.planning.work_pack import JobParts, WorkPack
from builder.rendering.drawings.canvas import identifier
from builder.rendering.drawings.plug_faces import draw_face
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


def plugs_to_read(pack: WorkPack, parts: JobParts) -> list[tuple[str, Markup]]:
    """Return each plug with a cavity that a line of the sheet reads, seen as it is probed: from
    the side of its wires."""
    read = {test.reading.plug for test in pack.tests if test.reading and test.reading.plug}
    housings = parts.shelf.housings
    return [
        (plug.id, draw_face(housings[plug.housing], plug, "wire_side", identifier("bay", plug.id)))
        for plug in parts.vehicle.plugs
        if plug.id in read and plug.housing in housings
    ]

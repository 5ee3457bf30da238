"""What a plan knows of a reading before it is taken, in the words of a bay sheet."""

from __future__ import annotations

from typing import Any, Final

from builder.model.words import BATTERY_NEGATIVE, Beside
from builder.planning.plan import ProofReading

STATE: Final = "state"


def reading_facts(reading: ProofReading) -> dict[str, Any]:
    """Return the keys of a sheet's reading that the plan knows before it is taken."""
    facts: dict[str, Any] = {"fuse_position": reading.fuse_position}
    if reading.plug and reading.cavity:
        facts = {"plug": reading.plug, "cavity": reading.cavity}
    facts[STATE] = reading.state
    if reading.load != "none":
        facts["load"] = reading.load
    plug, dot, cavity = reading.against.partition(".")
    against = cavity if dot and plug == reading.plug else reading.against
    if against != BATTERY_NEGATIVE:
        facts["against"] = against
    facts["quantity"] = reading.quantity
    return facts


def also_asked(reading: ProofReading) -> tuple[Beside, ...]:
    """Return what has to be written beside the figure for it to be evidence."""
    also: list[Beside] = ["minutes"] if reading.state == "asleep" else []
    also += ["tone_hz", "volume_step"] if reading.state == "radio_on_tone" else []
    also += ["battery_v"] if reading.quantity in ("dc_v", "ac_v") else []
    return tuple(also)

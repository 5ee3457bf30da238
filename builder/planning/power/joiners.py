"""What joins a second battery to the car's own: how it is called, and what it needs of its own."""

from __future__ import annotations

from builder.model.job import SecondBattery
from builder.model.job.batteries import JoinedBy

JOINERS: dict[JoinedBy, str] = {
    "relay": "relay of the second battery",
    "dc_charger": "charger of the second battery",
    "diode": "diode of the second battery",
}


def powered_joiner(second: SecondBattery | None) -> str | None:
    """Return what joins it and works by power of its own: it has a ground lead, and draws asleep.

    A relay and a charger sense charging volts at their own input, so that no control wire leads to
    them; a diode needs nothing.
    """
    if second is None or second.joined_by == "diode":
        return None
    return JOINERS[second.joined_by]


def joiner_remarks(second: SecondBattery | None) -> dict[str, str]:
    """Return what to mind when it is bought, by its name."""
    name = powered_joiner(second)
    said = "one that switches itself on at charging volts: a ground lead, no control wire"
    return {} if name is None else {name: said}

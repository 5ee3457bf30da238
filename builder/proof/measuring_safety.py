"""How to take a reading on a wire that nobody knows yet without harm to car, meter or person.

Source: common practice, no source.
"""

from __future__ import annotations

from builder.model.words import Quantity, State
from builder.proof.signatures.shapes import Against

LIVE = (
    "Meter only, 10 MΩ or more: no lamp and no load on a wire that nobody knows. Leave anything "
    "yellow or orange alone."
)
"""Yellow marks restraint circuits and orange high voltage in most cars; not in all of them."""
DEAD = "Dead circuit only, on the car side of the plug. Take the leads' own ohms off."
PAIR = "Never let the probes bridge the two wires."
BY_STATE: dict[State, str] = {
    "asleep": "Lock the car, carry the key away, and close the latch of an open door by hand.",
    "crank": "Neutral or park, brake on, hands and leads clear of belts and fans.",
    "auto_restart": "Brake on, hands and leads clear of belts and fans: it starts by itself.",
    "engine": "Neutral or park, brake on, fresh air.",
    "unplugged": "Key and radio off before the plug comes out.",
    "battery_off": "Read the car's cautions first, and wait as long as the vehicle maker says.",
}


def safety_of(state: State, quantity: Quantity, against: Against) -> str:
    """Return what to mind in this measurement of an unknown wire, as sentences."""
    parts = (
        BY_STATE.get(state, ""),
        DEAD if quantity == "ohm" else LIVE,
        PAIR if against == "other_leg" else "",
    )
    return " ".join(part for part in parts if part)

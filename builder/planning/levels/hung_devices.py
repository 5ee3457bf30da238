"""Small devices that hang on an amplifier's supply terminals: what they draw beside it."""

from __future__ import annotations

from builder.model.parts import Converter
from builder.units import Amperes


def hung_current_a(converter: Converter) -> Amperes:
    """Return the most that a converter draws, where only that without sound is known, that. [A]

    A turn-on driver draws milliamperes that no record gives, and is left out.
    """
    supply = converter.supply
    return 0.0 if supply is None else supply.max_a or supply.idle_a

"""How often a fault is the cause when a car comes back, one against the other.

Common practice, no source: a shop that keeps count puts its own figures into its settings. Only
their ratio counts; a reading decides, never one of these.
"""

from __future__ import annotations

from builder.declaring import record
from builder.model.house_default import house_default as _default


def _odds(value: float, what: str) -> float:
    """Return the declaration of one of these: a number against the others, above 0."""
    odds: float = _default(value, "", f"comebacks by {what}, against the others", above=0, most=100)
    return odds


@record(slots=False)
class ComebackOdds:
    """How often each kind of fault brings a car back, in one proportion."""

    comeback_joint: float = _odds(4.0, "one joint made by hand")
    comeback_plug: float = _odds(2.0, "one plug or terminal that was moved")
    comeback_fuse: float = _odds(3.0, "one fuse")
    comeback_setting: float = _odds(3.0, "one gain, switch or setting")
    comeback_changed_over: float = _odds(2.0, "two legs or pins changed over")
    comeback_short: float = _odds(1.0, "one wire rubbed through to the body")
    comeback_device: float = _odds(1.0, "one device")
    comeback_wire: float = _odds(0.3, "one whole wire that broke")
    comeback_car: float = _odds(0.5, "one part of the car's own that nobody touched")

"""The pins worth measuring first, as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.names import function_name
from builder.planning.job.wanted_pins import WantedPin


def measure_next_text(pins: Sequence[WantedPin]) -> str:
    """A block a pin: where, why, and what to measure."""
    if not pins:
        return "nothing: no plan waits for a reading, and every pin that one rests on is proven\n"
    return "\n".join(line for at, pin in enumerate(pins, 1) for line in _lines(at, pin)) + "\n"


def _lines(at: int, pin: WantedPin) -> Iterator[str]:
    what = f"{pin.place} {function_name(pin.function)}"
    yield f"{at}. {pin.vehicle} {what}: {pin.grade}; {why_wanted(pin)}"
    yield from (f"     {line}" for line in what_to_measure(pin))


def why_wanted(pin: WantedPin) -> str:
    """Why a pin is wanted, in words."""
    if pin.waiting:
        verb = "waits" if pin.waiting == 1 else "wait"
        too = " and for other pins" if pin.opens < pin.waiting - 1e-9 else ""  # a sum of shares
        return f"{_plans(pin.waiting)} {verb} for it{too}, a visit of about {pin.visit_min:.0f} min"
    return f"{_plans(pin.relying)} {'rests' if pin.relying == 1 else 'rest'} on it"


def _plans(number: int) -> str:
    return f"{number} plan{'' if number == 1 else 's'}"


def what_to_measure(pin: WantedPin) -> tuple[str, ...]:
    """The readings to take on a pin, each in words."""
    return tuple(reading.how for reading in pin.readings) or (pin.raise_by,)

"""Readings of a pair: the bias of both legs, and ohms from a leg to something else."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.model.book import Shelf
from builder.model.vehicle import Reading, Vehicle
from builder.rules.pin_readings import ground_volts, value_of
from builder.rules.wiring import GROUND_REFERENCES, Pair, Site

DEAD_STATES = ("unplugged", "battery_off")
"""States in which ohms may be read."""


class Biases(NamedTuple):
    """The resting voltage of the two legs of a pair in one session."""

    positive: Site
    positive_reading: Reading
    negative: Site
    negative_reading: Reading

    @property
    def lower(self) -> tuple[Site, Reading]:
        """The leg that reads less."""
        return self._sorted()[0]

    @property
    def higher(self) -> tuple[Site, Reading]:
        """The leg that reads more."""
        return self._sorted()[1]

    @property
    def difference_v(self) -> float:
        """How far the legs are apart [V]."""
        return value_of(self.higher[1]) - value_of(self.lower[1])

    def _sorted(self) -> list[tuple[Site, Reading]]:
        legs = [(self.positive, self.positive_reading), (self.negative, self.negative_reading)]
        return sorted(legs, key=lambda leg: value_of(leg[1]))


def biases(pair: Pair) -> Iterator[Biases]:
    """Both legs of a pair at volume zero, read in the same session."""
    for positive in pair.positives:
        for one in ground_volts(positive.pin, ("radio_on_zero",)):
            for negative in pair.negatives:
                for other in ground_volts(negative.pin, ("radio_on_zero",)):
                    if one.session == other.session:
                        yield Biases(positive, one, negative, other)


def is_bridged(pair: Pair, vehicle: Vehicle, shelf: Shelf) -> bool:
    """Whether both legs of the pair are driven: the radio says so, or a leg carries a bias."""
    if vehicle.radio.outputs == "bridged" and pair.unit == "radio":
        return True
    least_v = shelf.defaults.biased_leg_min_v
    return any(
        value_of(reading) >= least_v
        for site in (*pair.positives, *pair.negatives)
        for reading in ground_volts(site.pin, ("radio_on_zero",))
    )


def ohms_to_body(site: Site) -> Iterator[Reading]:
    """Ohms from a leg to body or battery negative on a dead circuit."""
    for reading in site.pin.readings:
        if _dead_ohms(reading) and reading.against in GROUND_REFERENCES:
            yield reading


def ohms_to_cavity(site: Site) -> Iterator[Reading]:
    """Ohms from a cavity to another cavity on a dead circuit."""
    for reading in site.pin.readings:
        if _dead_ohms(reading) and reading.against not in GROUND_REFERENCES:
            yield reading


def _dead_ohms(reading: Reading) -> bool:
    return reading.quantity == "ohm" and reading.state in DEAD_STATES

"""Readings drawn inside and outside the bands of the signature table, with a fixed seed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from random import Random
from typing import Any, NamedTuple

from builder.model.words import STATES
from builder.proof.signatures.shapes import Expected, Kind

SEED = 20_250_311
LOADS = ("none", "none", "none", "5ma", "50ma", "lamp_0.4a", "1a")
BATTERIES = (12.4, 12.6, 11.9, 14.2, None)


class Drawn(NamedTuple):
    """A reading as the core takes it."""

    state: Any
    quantity: Any
    value: float | None
    against: str
    battery_v: float | None
    load: Any
    minutes: float | None

    def for_page(self) -> dict[str, Any]:
        return {
            "state": self.state,
            "quantity": self.quantity,
            "value": self.value,
            "against": "ground" if self.against == "battery_negative" else "other_leg",
            "battery": self.battery_v,
            "load": self.load,
            "minutes": self.minutes,
        }


def ends(row: Expected, battery_v: float | None) -> tuple[float, float]:
    """The band of a line; an open end lies a good way off."""
    volts = battery_v or 0.0
    low = -20.0 if row.low is None else row.low[0] * volts + row.low[1]
    high = 2 * abs(low) + 50 if row.high is None else row.high[0] * volts + row.high[1]
    return low, high


def inside(random: Random, row: Expected, battery_v: float | None) -> float | None:
    low, high = ends(row, battery_v)
    if row.high is None and row.quantity == "ohm" and random.random() < 0.3:
        return None
    return random.choice(
        [low, high, random.uniform(low, high), round(random.uniform(low, high), 3)]
    )


def outside(random: Random, row: Expected, battery_v: float | None) -> float:
    low, high = ends(row, battery_v)
    step = random.choice([1e-10, 1e-8, 0.125, 0.5, 3.0, 40.0])
    return random.choice([low - step, high + step])


def reading_of(
    random: Random, row: Expected, battery_v: float | None, *, fits: bool | None = None
) -> Drawn:
    """A reading of a line, in its band or (unless `fits`) perhaps outside it."""
    within = fits or random.random() < 0.75
    value = (inside if within else outside)(random, row, battery_v)
    state = random.choice(row.states)
    load = random.choice(row.loads or (LOADS if fits is None else ("none",)))
    minutes = random.choice([0.0, 5.0, 20.0, 59.5, 60.0, 240.0]) if fits is None else 240.0
    return Drawn(
        state,
        row.quantity,
        value if value is None or math.isfinite(value) else None,
        "battery_negative" if row.against == "ground" else "4",
        battery_v,
        load,
        minutes if state == "asleep" else None,
    )


def odd_reading(random: Random) -> Drawn:
    """A reading that no line may speak of."""
    quantity = random.choice(["dc_v", "ac_v", "ohm", "hz", "ma", "duty_percent"])
    state = random.choice(STATES)
    value = random.choice([0.0, 0.125, 2.5, 6.4, 12.375, 99.996, 100.5, 4700.0])
    against, load = random.choice(["battery_negative", "4"]), random.choice(LOADS)
    minutes = 30.0 if state == "asleep" else None
    return Drawn(state, quantity, value, against, random.choice(BATTERIES), load, minutes)


def cases(kinds: list[Kind], each: int) -> Iterator[list[Drawn]]:
    """Yield `each` sets of readings a kind: one or several, some of them odd.

    Before them come no reading at all, and readings that no wire of a 12 V car gives.
    """
    random = Random(SEED)
    yield []
    yield [Drawn(s, "dc_v", 40.0, "battery_negative", 12.6, "none", 240.0) for s in STATES]
    for kind in kinds:
        for _ in range(each):
            battery_v = random.choice(BATTERIES)
            count = random.randint(1, 5)
            drawn = [reading_of(random, random.choice(kind.rows), battery_v) for _ in range(count)]
            if random.random() < 0.25:
                drawn.append(odd_reading(random))
            yield drawn

"""Where the batteries of a picture stand, and what the second one moves.

The car's own battery stands at the top left. A second one, which then feeds what is added, stands
below it: the link from one to the other runs above everything else and comes back.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.planning.circuit.model import Link
from builder.planning.circuit.supply_links import BODY, THE_BODY, THE_STRAP
from builder.planning.circuit.terminal_names import BATTERY, SECOND, supply_of
from builder.rendering.drawings.canvas import Box
from builder.rendering.drawings.wiring.reading import Reading

LEFT = 32.0  # the margin, in which the strap runs
OVER = 86.0  # how far a second battery and all below it move down
HIGH = 46.0
BESIDE = 12.0  # between two wires in the margin


@dataclass(frozen=True, slots=True)
class Batteries:
    """Boxes and heights of the batteries, and where their wires run in the margin."""

    over: float  # how far the feeding battery stands below the top
    own: Box  # of the car's battery
    feeding: Box
    strap_x: float  # the first wire from the car's battery downwards
    second_x: float  # the ground of the second battery
    left: float  # the margin
    grounded_right: float  # room beside everything for the ground of what joins the two

    @property
    def trunk_y(self) -> float:
        """The height of the trunk, which leaves the feeding battery."""
        return self.feeding[1] + 20.0


def batteries(reading: Reading) -> Batteries:
    """Return where they stand."""
    if SECOND not in reading.index.units:
        box = (10.0, 14.0, 92.0, HIGH)
        return Batteries(0.0, box, box, 18.0, 18.0, LEFT, 0.0)
    body = BODY in reading.index.units
    lines = 1 if body else len(fed_amplifiers(reading)) + 1
    x = 18.0 + BESIDE * (lines - 1)
    joined = any(reading.kind_of(link.begins) == "battery_joiner" for link in reading.grounds)
    return Batteries(
        OVER, (2.0, 14.0, x + 82.0, HIGH), (x, 14.0 + OVER, 104.0, HIGH), 9.0, x + 7.0,
        x + 20.0, 22.0 if joined and body else 0.0,
    )  # fmt: skip


def fed_amplifiers(reading: Reading) -> list[str]:
    """Return the amplifiers that have a supply, in the order of the circuit."""
    ends = {link.finishes for link in reading.supplies}
    return [unit.id for unit in reading.units("amplifier") if supply_of(unit.id) in ends]


def feeding_battery(reading: Reading) -> str:
    """The battery that what is added hangs on: the second, where there is one."""
    return SECOND if SECOND in reading.index.units else BATTERY


def body_links(reading: Reading) -> tuple[Link, Link]:
    """The way through the body, and what closes it to the feeding battery, from its foot."""
    links = reading.index.links
    ground, last = links[THE_BODY], links[THE_STRAP]
    own = links.get(f"ground of {SECOND}")
    if own is None:
        return ground, last
    return ground, replace(own, path=own.path[::-1])

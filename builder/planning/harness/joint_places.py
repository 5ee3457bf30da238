"""The millimetres of one joint of a loom: from one place for every sheet.

One form serves both sides of a cut. The two bare ends lie side by side in one crimp barrel that is
open at both ends, or are soldered so; the wires enter it from either side or from the same one.
Every cable comes from the car's end: so its core meets the side to the unit head on, and lies
beside the side to the car. An end that is closed off has its sleeve where a joint would have it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal, NamedTuple

Side = Literal["unit", "car"]

BARE_MM: Final = 5.0
SLEEVE_MM: Final = 30.0
CUT_BACK_MM: Final = 15.0
EXIT_MM: Final = 65.0
TAPE_MM: Final = 50.0
TIES_MM: Final = (10.0, 30.0)
"""Bare of each wire; a sleeve; what comes off either side of a cut; from the last cut to the edge
of the cables' jackets, so that every sleeve waits whole on its core; from the first cut to where
the tape stays, so that a flag has room; from the jackets' edge to the ties. Common practice, no
source: they fit each other.
"""


BRANCH_EDGE_MM: Final = 60.0
BRANCH_APART_MM: Final = 35.0
TURN_MM: Final = 10.0
"""At a branch: from the jackets' edge to the nearest tip, so that a sleeve waits whole on the
shortest core; how much farther each other one lies; what a core takes to turn round. Common
practice, no source."""


class JointPlace(NamedTuple):
    """One side of a cut, all from the back of the unit's end [mm]."""

    tip_mm: float  # of the loom's wire
    core_tip_mm: float  # of the cable's core beside it
    insulation_mm: float  # where the core's insulation ends, towards its jacket
    sleeve_mm: tuple[float, float]


def joint_place(cut_mm: float, side: Side) -> JointPlace:
    """Return where everything of one side of a cut lies.

    >>> joint_place(75, "unit").sleeve_mm
    (42.5, 72.5)
    """
    if side == "unit":
        tip = cut_mm - CUT_BACK_MM
        return JointPlace(tip, tip - BARE_MM, tip, _sleeve(tip - BARE_MM / 2))
    tip = cut_mm + CUT_BACK_MM
    return JointPlace(tip, tip, tip + BARE_MM, _sleeve(tip + BARE_MM / 2))


def _sleeve(middle_mm: float) -> tuple[float, float]:
    return middle_mm - SLEEVE_MM / 2, middle_mm + SLEEVE_MM / 2


def exit_mm(cuts_mm: Sequence[float]) -> float:
    """Return where every cable's jacket ends and the cable leaves the bundle [mm]."""
    return max(cuts_mm) + EXIT_MM


def core_mm(cuts_mm: Sequence[float], cut_mm: float, side: Side) -> float:
    """Return how long a core is from its jacket to its tip [mm]."""
    return exit_mm(cuts_mm) - joint_place(cut_mm, side).core_tip_mm

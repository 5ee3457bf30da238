"""The millimetres of one joint of a loom: from one place for every sheet.

The two bare ends lie side by side in one crimp barrel that is open at both ends. Every cable comes
from the car's end: so its core meets the side to the unit head on, and its sleeve waits on it.
On the side to the car both come from the same side, and the barrel is wider than what a sleeve on
one core could come back over: its sleeve goes on afterwards, over the free tip. An end that is
closed off has its sleeve where a joint would have it, put on in the same way.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, Literal, NamedTuple

Side = Literal["unit", "car"]

BARE_MM: Final = 6.0
BARREL_MM: Final = BARE_MM
SLEEVE_MM: Final = 30.0
CUT_BACK_MM: Final = 15.0
EXIT_MM: Final = 65.0
FLAG_MM: Final = (10.0, 50.0, 15.0)
TIES_MM: Final = (5.0, 21.0)
BEHIND_EDGE_MM: Final = 50.0
EMPTY_MM: Final = (SLEEVE_MM - BARE_MM) / 2
"""Bare of each wire; a barrel: never longer than what is bared, or insulation would
lie in it; a sleeve; what comes off either side of a cut; from the last cut to the edge
of the cables' jackets, so that every sleeve waits whole on its core; a flag: how wide, how far
before the first cut and before the jackets' edge it begins, so that it lies on neither sleeve nor
jacket; from the jackets' edge to the two ties of a cable, and to the back of the car's plug, at
least: what the ties leave of it the cables need to turn off sideways; what stays empty of a sleeve
that is put on over a tip, to be pinched. Common practice, no source: they fit each other.
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
    (42.0, 72.0)
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


def flags_mm(cuts_mm: Sequence[float]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return where the flags of a wire lie, from and to [mm]: towards the unit, towards the car.

    >>> flags_mm([75, 285])
    ((25.0, 35.0), (335.0, 345.0))
    """
    wide, before_cut, before_edge = FLAG_MM
    near, far = min(cuts_mm) - before_cut, exit_mm(cuts_mm) - before_edge
    return (near, near + wide), (far, far + wide)


def core_mm(cuts_mm: Sequence[float], cut_mm: float, side: Side) -> float:
    """Return how long a core is from its jacket to its tip [mm]."""
    return exit_mm(cuts_mm) - joint_place(cut_mm, side).core_tip_mm

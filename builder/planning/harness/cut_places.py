"""Where each wire of a loom is cut: no two joints of a bundle at one place."""

from __future__ import annotations

from builder.model.parts.loom_wires import Point
from builder.planning.harness.joint_places import BEHIND_EDGE_MM, EXIT_MM
from builder.planning.harness.planned import LoomPlan
from builder.units import Metres

FROM_PLUG_M = 0.075
"""What stays at either plug of a loom, so that it can be bent. Common practice, no source."""

APART_M = (0.030, 0.040)
"""Between the joints of two wires that lie together, least and most. Common practice, no source."""

_LEAVING_M = (EXIT_MM + BEHIND_EDGE_MM) / 1000 - FROM_PLUG_M
"""More than what stays at the plug anyway, so that cables are tied and turn off before it."""


def cut_places(plan: LoomPlan) -> dict[Point, Metres | None]:
    """Return how far from the unit's end each wire is joined: cut, or joined beside.

    By the point that a cut or a tap names. None where the loom is too short to tell, or nobody
    recorded how long it is: whoever makes it measures. Where there is no room for all, the next row
    of joints begins at the first place again.
    """
    points = [*(cut.at for cut in plan.cuts), *plan.taps]
    length = plan.use.loom.length_m
    if length is None or length < 2 * FROM_PLUG_M:
        return dict.fromkeys(points)
    room = length - 2 * FROM_PLUG_M
    apart = _apart(room - _LEAVING_M, len(points))
    fitting = int(room / apart + 1e-9) + 1
    return {point: FROM_PLUG_M + apart * (at % fitting) for at, point in enumerate(points)}


def _apart(room: Metres, count: int) -> Metres:
    """As far apart as there is room for, within what is usual."""
    least, most = APART_M
    return min(most, max(least, int(1000 * room / max(1, count - 1) + 1e-9) / 1000))

"""Where label, bands and ties sit on a cable at its loom, and how large each mark is: said once.

All from the edge of the cable's jacket. Ties come first, then the label, so near that it still is
where every label is looked for; then the tape that holds a folded core, then the bands.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from builder.planning.harness.joint_places import TIES_MM
from builder.planning.harness.rows import LoomCableRow

TIE_MM: Final = 4.0
LABEL_MM: Final = (30.0, 100.0)
FLAG_LONG_MM: Final = 40.0
BAND_MM: Final = (10.0, 5.0)
TAPE_MM: Final = 19.0
FREE_TIP_MM: Final = 40.0
_LABEL_FROM_MM: Final = 45.0
"""A tie, how wide at most; a label, how wide and how long before it is folded; how long a wire's
flag is before; a band, how wide and how far from the next; cloth tape, how wide; what stays free of
tape before the tip of a folded core, so that its bared end can be cut off and a sleeve pushed on;
where a label begins. Common practice, no source: they fit each other."""


class MarkPlaces(NamedTuple):
    """Where each mark begins and ends [mm]; the bands, where the first begins."""

    label_mm: tuple[float, float]
    tape_mm: tuple[float, float]
    bands_mm: float


def mark_places(cables: Sequence[LoomCableRow]) -> MarkPlaces:
    """Return where the marks of these cables sit: behind the last tie, though each cable's own two
    lie beside those of the one before.

    >>> mark_places(())
    MarkPlaces(label_mm=(45.0, 75.0), tape_mm=(75.0, 94.0), bands_mm=100.0)
    """
    ties_end = TIES_MM[-1] + TIE_MM * sum(bool(row.bands) for row in cables)
    start = max(_LABEL_FROM_MM, ties_end)
    label = start, start + LABEL_MM[0]
    tape = label[1], label[1] + TAPE_MM
    return MarkPlaces(label, tape, tape[1] + 6)

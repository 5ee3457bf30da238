"""Where ties, labels, bands and tape sit on a loom and its cables, and how large each mark is.

On a cable all is counted from an edge of its jacket. At the loom's end ties come first, then the
label, so near that it still is where every label is looked for; then the tape that holds a folded
core, then the bands. On the bundle all is counted from the back of the unit's plug.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import ceil
from typing import Final, NamedTuple

from builder.model.house_defaults import HouseDefaults
from builder.planning.harness.joint_places import BARE_MM, TIES_MM, TURN_MM
from builder.planning.harness.rows import LoomCableRow

TIE_MM: Final = 4.0
LABEL_MM: Final = (30.0, 100.0)
FLAG_LONG_MM: Final = 40.0
BAND_MM: Final = (10.0, 5.0)
TAPE_MM: Final = 19.0
FREE_TIP_MM: Final = 36.0
PUSHED_MM: Final = 2 * BARE_MM
BESIDE_MM: Final = 2.0
APART_MM: Final = 2 * BESIDE_MM
FOLDED_MM: Final = TURN_MM + BESIDE_MM + FREE_TIP_MM
_FROM_END_MM: Final = 10.0
_TAPE_EVERY_MM: Final = 100.0
"""A tie, how wide at most; a label, how wide and how long before it is folded; how long a wire's
flag is before; a band, how wide and how far from the next; cloth tape, how wide; what stays free of
tape before the tip of a folded core, so that its bared end can be cut off and a sleeve pushed on;
how far a cable is pushed for a joint made anew; how far a cut or mark may lie beside its place, and
how far marks are apart, so that none then lies on its neighbour; how much longer a folded core is
than where its last tape ends: it turns round, and that tape may lie beside its place; how far marks
are from an end; from one tape on a folded core to the next. Common practice, no source: they fit
each other."""

Span = tuple[float, float]

MOST_TIED: Final = int((TIES_MM[1] - TIES_MM[0] - APART_MM) / TIE_MM)
LABEL_FROM_MM: Final = TIES_MM[1] + MOST_TIED * TIE_MM + PUSHED_MM + APART_MM
"""How many ties fit beside each other before a cable's second; where a label at a loom begins:
behind the last tie, even when its cable was pushed for a joint made anew."""


class MarkPlaces(NamedTuple):
    """Where each mark begins and ends [mm]; the bands, where the first begins."""

    label_mm: Span
    tape_mm: Span
    bands_mm: float


def tied_together(cables: Sequence[LoomCableRow]) -> list[list[LoomCableRow]]:
    """Return the cables of one place by the tie that each is held with: one each, while they are
    few; more under one tie where there is no room for a tie each."""
    size = max(1, ceil(len(cables) / MOST_TIED))
    return [[*cables[at : at + size]] for at in range(0, len(cables), size)]


def by_place(cables: Sequence[LoomCableRow]) -> dict[str, list[LoomCableRow]]:
    """Return the cables of the bundle, under no name, and of each branch."""
    found: dict[str, list[LoomCableRow]] = defaultdict(list)
    for row in cables:
        found[row.branch].append(row)
    return found


def tie_places(cables: Sequence[LoomCableRow]) -> Iterator[tuple[list[LoomCableRow], Span]]:
    """Yield which cables of one place are tied together, and where each of their two ties begins,
    from the edge of the jackets [mm]: beside those of the ones before."""
    for at, group in enumerate(tied_together(cables)):
        yield group, (TIES_MM[0] + TIE_MM * at, TIES_MM[1] + TIE_MM * at)


def ties_end_mm(cables: Sequence[LoomCableRow]) -> float:
    """Return where the last tie of the cables of one place ends, from their jackets' edge [mm]."""
    return TIES_MM[1] + TIE_MM * len(tied_together(cables))


def mark_places() -> MarkPlaces:
    """Return where the marks of a cable sit at the loom's end, from the edge of its jacket.

    >>> mark_places()
    MarkPlaces(label_mm=(49.0, 79.0), tape_mm=(83.0, 102.0), bands_mm=108.0)
    """
    label = LABEL_FROM_MM, LABEL_FROM_MM + LABEL_MM[0]
    tape = label[1] + APART_MM, label[1] + APART_MM + TAPE_MM
    return MarkPlaces(label, tape, tape[1] + 6)


def far_marks(start_mm: float) -> tuple[Span, float]:
    """Return a label that begins there and where its first band begins [mm]: no core is folded
    between the two.

    >>> far_marks(10)
    ((10, 40.0), 50.0)
    """
    label = start_mm, start_mm + LABEL_MM[0]
    return label, label[1] + _FROM_END_MM


def far_label_mm(house: HouseDefaults) -> float:
    """Return where the label of the far end begins, from the edge of the jacket there [mm].

    >>> far_label_mm(HouseDefaults()), far_label_mm(HouseDefaults(label_from_end_mm=5.0))
    (10.0, 5.0)
    """
    return min(_FROM_END_MM, house.label_from_end_mm)


def midway_mm(row: LoomCableRow) -> float | None:
    """Return where the label mid-way begins, from the edge of the jacket at the loom's end [mm]:
    half the cable's length, in whole decimetres; None while nobody knows how long it is."""
    return None if row.length_m is None else max(100.0, 100.0 * int(5 * row.length_m + 1e-9))


def bands_end_mm(row: LoomCableRow, first_mm: float) -> float:
    """Return where the last band ends, when the first begins there [mm]."""
    return first_mm + row.bands * BAND_MM[0] + max(0, row.bands - 1) * BAND_MM[1]


def fold_tapes(row: LoomCableRow) -> list[Span]:
    """Return where tape holds the folded cores of a cable, from the edge of its jacket [mm]: before
    its bands and behind them, never on a band, never on what stays free before the tip."""
    at = mark_places()
    reach = at.tape_mm[1] if row.off_mm is None else row.off_mm - FOLDED_MM
    found = [at.tape_mm] if at.tape_mm[1] <= reach else []
    start = max(at.tape_mm[0] + _TAPE_EVERY_MM, bands_end_mm(row, at.bands_mm) + 6)
    while start + TAPE_MM <= reach:
        found.append((start, start + TAPE_MM))
        start += _TAPE_EVERY_MM
    return found


def least_off_mm() -> float:
    """Return how long a core must be to be folded back, so that a tape holds it [mm].

    >>> least_off_mm()
    150.0
    """
    return mark_places().tape_mm[1] + FOLDED_MM


def plug_labels_mm(edge_mm: float | None, length_m: float | None) -> tuple[Span, Span | None]:
    """Return where the labels of the two plugs lie on the bundle [mm]: the one behind the unit's
    plug; the other before the car's plug, or before the jackets, where cables are tied there, also
    where one of them was pushed.

    None where neither the jackets' edge nor the loom's length is known.

    >>> plug_labels_mm(350.0, 0.4)
    ((10.0, 40.0), (304.0, 334.0))
    """
    near = _FROM_END_MM, _FROM_END_MM + LABEL_MM[0]
    if edge_mm is not None:
        stop = edge_mm - PUSHED_MM - APART_MM
    elif length_m is not None:
        stop = 1000 * length_m - _FROM_END_MM
    else:
        return near, None
    return near, (stop - LABEL_MM[0], stop)


def label_most_mm(house_mm: float, *, at_loom: bool) -> float:
    """Return how far from an end a label begins at most [mm]: at a loom behind the ties.

    >>> label_most_mm(50, at_loom=True), label_most_mm(30, at_loom=True)
    (50, 49.0)
    """
    return max(house_mm, LABEL_FROM_MM) if at_loom else house_mm

"""The cable sheet of a work pack: each jacket drawn, its cut length, its labels, its ends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from markupsafe import Markup

from builder.figures import shown
from builder.planning.cables.cut_lengths import round_up_m
from builder.planning.sheet_rows import ConductorRow, CutRow, JointRow, Label
from builder.planning.work_pack import WorkPack
from builder.rendering.drawings.jacket_section import is_spare, jacket_section
from builder.rendering.drawings.label_strip import label_strip


class JacketEnd(NamedTuple):
    """One end of one jacket: how many conductors are made off, and how many closed off."""

    jacket: str
    end: str
    used: int
    spare: int


def jackets_of(pack: WorkPack) -> list[tuple[ConductorRow, ...]]:
    """Return the conductors jacket by jacket, in the order of the pack."""
    jackets: dict[tuple[int, str], list[ConductorRow]] = {}
    for row in pack.conductors:
        if row.jacket is not None:
            jackets.setdefault((row.jacket, row.cable), []).append(row)
    return [tuple(rows) for rows in jackets.values()]


def jacket_drawings(pack: WorkPack, names: Mapping[str, str]) -> list[Markup]:
    """Return the cross-section of every jacket; `names` are the cables' names by id."""
    lengths = {cut.name: f"cut {shown(cut.cut_m)} m" for cut in pack.cut_list}
    return [
        jacket_section(rows, names.get(rows[0].cable, ""), lengths.get(rows[0].piece, ""))
        for rows in jackets_of(pack)
    ]


def label_drawings(labels: Sequence[Label]) -> list[Markup]:
    """Return the labels to cut out, jacket by jacket."""
    jackets: dict[str, list[Label]] = {}
    for label in labels:
        jackets.setdefault(label.jacket, []).append(label)
    return [label_strip(mine) for mine in jackets.values()]


def jacket_ends(pack: WorkPack) -> list[JacketEnd]:
    """Return both ends of every jacket."""
    return [
        JacketEnd(
            rows[0].piece,
            end,
            sum(not is_spare(row) for row in rows),
            sum(is_spare(row) for row in rows),
        )
        for rows in jackets_of(pack)
        for end in (rows[0].from_end, rows[0].to_end)
    ]


def metres_by_cable(cuts: Sequence[CutRow]) -> list[tuple[str, int, float]]:
    """Return cable, pieces and metres together, for the order."""
    pieces: dict[str, list[float]] = {}
    for cut in cuts:
        pieces.setdefault(cut.cable, []).append(cut.cut_m)
    return [(cable, len(cut_m), round_up_m(sum(cut_m))) for cable, cut_m in pieces.items()]


def joints_by_place(joints: Sequence[JointRow]) -> list[tuple[str, list[JointRow]]]:
    """Return the joints place by place, in the order of the work."""
    places: dict[str, list[JointRow]] = {}
    for joint in joints:
        places.setdefault(joint.place, []).append(joint)
    return list(places.items())

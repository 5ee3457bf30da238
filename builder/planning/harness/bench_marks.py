"""Marks at the bench, in words: each with the end that it is counted from, and its millimetres."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from builder.figures import shown
from builder.planning.circuit.terminal_names import plug_name, source_name
from builder.planning.harness.marks import (
    BAND_MM,
    FREE_TIP_MM,
    LABEL_MM,
    Span,
    far_label_mm,
    far_marks,
    fold_tapes,
    mark_places,
    midway_mm,
    plug_labels_mm,
)
from builder.planning.harness.ring_method import FAR_BARE_MM
from builder.planning.harness.rows import LoomCableRow
from builder.planning.harness.sheet_work import SheetWork

NAME_STRIP = (
    "held to the table by a strip of tape over either plug, its name written on it, until the "
    "plugs are labelled"
)


def from_to(span: Span) -> str:
    """Return where something begins and ends: "from 45 to 75 mm"."""
    low, high = (shown(each, 0) for each in span)
    return f"from {low} to {high} mm"


def plug_label_line(work: SheetWork) -> str:
    """Return where the labels of the two plugs go: the last of all, over the tape; told once."""
    (unit, car), home, name = work.plan.ends, work.plan.use.plug, work.plan.use.name
    near, far = plug_labels_mm(work.bundle_edge_mm, work.plan.use.loom.length_m)
    there = (
        "on the 30 mm before the cables, or before the back of that plug, where none lie"
        if far is None
        else from_to(far)
    )
    return (
        f'label the plugs, each label round the bundle, over the tape: "{name}, {unit.name}: into '
        f'the {source_name(home.unit)}" {from_to(near)}, "{name}, {car.name}: takes '
        f'{plug_name(home)}" {there}'
    )


def marking_lines(work: SheetWork) -> Iterator[str]:
    """Yield where labels and bands go on each cable: at both of its ends and mid-way."""
    rows = [row for row in work.cables if row.bands]
    if not rows:
        return
    at, house = mark_places(), work.defaults
    far, far_bands = far_marks(far_label_mm(house))
    ties = (
        f" (its ties come first: not within the house's {shown(house.label_from_end_mm)} mm)"
        if house.label_from_end_mm < at.label_mm[0]
        else ""
    )
    yield (
        "mark each cable three times, a label and its bands of coloured tape, all of one colour. "
        f"At the loom's end, where most jacket is off: the label {from_to(at.label_mm)} of the "
        f"edge of the jacket{ties}, the first band from {shown(at.bands_mm, 0)} mm on. At the far "
        f"end, from the edge of the jacket there: the label {from_to(far)}, the first band from "
        f"{shown(far_bands, 0)} mm on. "
        f"{_midway(rows)}. Each further band begins {shown(sum(BAND_MM))} mm farther from "
        "that edge. Follow it by hand from end to end: all three say the same"
    )


def _midway(rows: Sequence[LoomCableRow]) -> str:
    """Mid-way, cables of one length alike."""
    found: dict[float | None, list[str]] = defaultdict(list)
    for row in rows:
        found[midway_mm(row)].append(row.cable)
    said = []
    for start, names in found.items():
        who = "" if len(found) == 1 else f"{' and '.join(names)} "
        if start is None:
            said.append(f"{who}the label at half its length, the first band 10 mm behind it")
        else:
            label, bands = far_marks(start)
            said.append(
                f"{who}the label {from_to(label)}, the first band from {shown(bands, 0)} mm on"
            )
    return f"Mid-way, from the edge of the jacket at the loom's end: {'; '.join(said)}"


def single_lines(work: SheetWork) -> Iterator[str]:
    """Yield how single wires are cut and labelled: behind the sleeve of either end."""
    if any(not row.bands for row in work.cables):
        near = mark_places().label_mm
        far = min(near[0], work.defaults.label_from_end_mm)
        yield (
            "each single wire of the cable list: cut it to its length, and put its label on at "
            f"both ends: {from_to(near)} of its tip at the loom's end, "
            f"{from_to((far, far + LABEL_MM[0]))} of its tip at the far end"
        )


def folded_line(work: SheetWork) -> str:
    """Return how a core waits beside its jacket, so that its tip can be bared and closed off."""
    return (
        f"a core that is joined to nothing here: only the {FAR_BARE_MM} mm that are bared for the "
        "ring-out are cut off it. Fold it back along the outside of its jacket, over the bands, "
        f"opposite the words of the label, under the ties of its cable; {_taped(work)}: at least "
        f"its last {shown(FREE_TIP_MM)} mm stay free of tape. This tape stays on"
    )


def _taped(work: SheetWork) -> str:
    """Each tape by its millimetres, cables with the same tapes together."""
    found: dict[tuple[Span, ...], list[str]] = defaultdict(list)
    for row in work.cables:
        if row.others:
            found[tuple(fold_tapes(row))].append(row.cable)
    said = [
        f"{' and '.join(names)} {' and '.join(from_to(each) for each in tapes)}"
        for tapes, names in found.items()
    ]
    return (
        f"cloth tape holds it, from the edge of its jacket, on {', on '.join(said)}, nowhere else"
    )

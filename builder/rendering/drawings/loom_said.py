"""The drawings of a loom on the table in words, for who hears them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.parts import Loom
from builder.model.parts.loom import Branch
from builder.planning.harness.rows import LoomCableRow, LoomJointRow, LoomSheet
from builder.rendering.drawings.loom_lane import mm


def read_out(sheet: LoomSheet, loom: Loom) -> Iterator[str]:
    """Yield the bundle in words, from the unit's end to the car's, then its cables."""
    long = "of unknown length" if sheet.length_m is None else f"{mm(1000 * sheet.length_m)} long"
    yield f"{sheet.unit_end} at the left, {sheet.car_end} at the right, {long}."
    bundle = [row for row in sheet.joints if not row.branch]
    for row in sorted(bundle, key=lambda row: (row.tip_mm is None, row.tip_mm or 0, row.number)):
        yield f"{joint_said(row)}, on {row.wire}, {row.side}."
    for name, at_m in loom.lies_m.items():
        place = "a place to measure" if at_m is None else mm(from_unit_mm(sheet, loom, at_m))
        yield f"{name} at {place}."
    yield from (f"{cable_said(row)}." for row in sheet.cables if not row.branch)


def read_branch(sheet: LoomSheet, loom: Loom, branch: Branch) -> Iterator[str]:
    """Yield a branch in words, from its joint that lies farthest out to the nearest."""
    yield f"{branch.name}, {leaves_said(sheet, loom, branch)}."
    for row in sheet.joints:
        if row.branch == branch.name:
            yield f"{joint_said(row)}, on {row.wire}."
    yield from (f"{cable_said(row)}." for row in sheet.cables if row.branch == branch.name)


def leaves_said(sheet: LoomSheet, loom: Loom, branch: Branch) -> str:
    """Return where a branch leaves and how long it is from there."""
    at, long = branch.at_m, branch.length_m
    leaves = f"leaves at {mm(from_unit_mm(sheet, loom, at))}" if at is not None else (
        "where it leaves: measure"
    )  # fmt: skip
    out = "its length: measure" if long is None else f"{mm(1000 * long)} from there"
    return f"{leaves}, {out}"


def joint_said(row: LoomJointRow) -> str:
    """Return a joint in a few words: "3: 90 mm, cable 1 pair 1 negative, brown/black"."""
    place = "measure" if row.tip_mm is None else mm(row.tip_mm)
    return f"{row.number}: {place}, {row.core or row.joined.split(', then ')[0]}"


def cable_said(row: LoomCableRow) -> str:
    """Return a cable in a few words: what it is cut from, how long, where its jacket ends."""
    long = "as measured" if row.length_m is None else mm(1000 * row.length_m)
    edge = "" if row.edge_mm is None else f", jacket from {mm(row.edge_mm)} on"
    off = "" if row.off_mm is None else f", {mm(row.off_mm)} of it off"
    return f"{row.cable}: {row.material}, {long}{edge}{off}"


def from_unit_mm(sheet: LoomSheet, loom: Loom, at_m: float) -> float:
    """Return a place of the record, counted from its first end, from the unit's end [mm]."""
    if loom.ends[0].name == sheet.unit_end or loom.length_m is None:
        return 1000 * at_m
    return 1000 * (loom.length_m - at_m)

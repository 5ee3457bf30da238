"""Where the main fuse is: a place by name, and the wire before it."""

from __future__ import annotations

from typing import Final

from builder.figures import shown
from builder.model.house_defaults import HouseDefaults
from builder.model.job import JobSupply

BY_THE_BATTERY: Final = "close to the battery"
"""Where a fuse is that nobody named a place for, at the car's own battery."""


def main_fuse_place(supply: JobSupply) -> str:
    """Return where it is mounted: as the job names it, else where the battery is that feeds it."""
    if supply.main_fuse_place is not None:
        return supply.main_fuse_place
    second = supply.second_battery
    return BY_THE_BATTERY if second is None else second.place


def main_fuse_words(supply: JobSupply, defaults: HouseDefaults) -> str:
    """Return its place and how much wire lies before it, and may: "close to the battery, 0.35 m of
    wire from its post (at most 0.45 m)"."""
    post = "its post" if supply.main_fuse_place is None else "the battery post"
    if supply.second_battery is not None:
        post = "the second battery's post"
    most = f"at most {shown(defaults.fuse_distance_m)} m"
    wire = supply.fuse_to_battery_m
    before = most if wire is None else f"{shown(wire, beside=defaults.fuse_distance_m)} m"
    limit = "" if wire is None else f" ({most})"
    return f"{main_fuse_place(supply)}, {before} of wire from {post}{limit}"

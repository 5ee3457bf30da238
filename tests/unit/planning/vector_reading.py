"""Reading published values for the tests beside this file."""

from __future__ import annotations

import json
from math import pi
from pathlib import Path
from typing import Any

CIRCULAR_MIL_MM2 = pi / 4 * 0.0254**2
"""The area of a circle a thousandth of an inch across, by which handbooks count. [mm²]"""
VECTORS = Path(__file__).parents[2] / "vectors"
POWER_VECTORS = (
    "wire_gauge",
    "metric_conductors",
    "small_craft",
    "voltage_drop",
    "fuse_sizes",
    "small_capacitors",
    "delay_sums",
    "supply_scenarios",
    "speaker_leads",
)


def groups(name: str) -> dict[str, Any]:
    """The groups of a vector file by name."""
    data = json.loads((VECTORS / f"{name}.json").read_text(encoding="utf-8"))
    return {group["name"]: group for group in data["groups"]}

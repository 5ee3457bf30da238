"""Looms for tests: the sixteen ways of the worked example, and looms drawn at random."""

from __future__ import annotations

from random import Random
from typing import Any

from builder.declaring import read
from builder.model.parts import Loom
from builder.model.parts.loom_wires import Point
from builder.planning.looms.cutting import Cut

RADIO, CAR = "radio end", "car end"
ENDS = [
    {"name": RADIO, "housing": "plug", "plugs_into": "radio", "read_from": "wire_side"},
    {"name": CAR, "housing": "socket", "plugs_into": "car", "read_from": "wire_side"},
]


def loom(wires: list[dict[str, Any]], **more: Any) -> Loom:
    head = {"schema": 1, "id": "l", "data": "invented", "name": "Loom", "made": "bench"}
    return read(Loom, head | {"ends": ENDS, "branches": [], "wires": wires} | more)


STRAIGHT_16 = loom([{"through": list(range(1, 17))}])
"""Cavities 1 to 8 are the speaker pairs, fronts first."""
CUTS = tuple(
    Cut(Point(RADIO, str(cavity)), "cable" if cavity <= 4 else "closed", "cable")
    for cavity in range(1, 9)
)
"""All four pairs are broken; the rears' radio ends are closed off."""


def random_loom(draw: Random) -> tuple[Loom, tuple[Cut, ...]]:
    """A loom with straight wires, branches bare and with plugs, splices; and some of it cut."""
    cavities = draw.sample(range(1, 25), draw.randint(2, 12))
    branches = [{"name": "branch 1", "length_m": 0.4}]
    branches += [{"name": "branch 2", "housing": "plug", "length_m": 0.2}]
    wires: list[dict[str, Any]] = []
    cuts: list[Cut] = []
    splices: list[dict[str, Any]] = []
    for cavity in cavities:
        kind = draw.choice(["through", "through", "cut", "out", "plug", "splice", "one end"])
        near, far = f"{RADIO}.{cavity}", f"{CAR}.{cavity}"
        if kind in ("through", "cut"):
            wires.append({"from": near, "to": far})
        if kind == "cut":
            halves = [draw.choice(["cable", "closed"]) for _ in range(2)]
            cuts.append(Cut(Point(RADIO, str(cavity)), *halves))
        if kind in ("out", "one end"):
            wires.append({"from": far, "to": "branch 1"})
        if kind == "out":
            wires.append({"from": near, "to": "branch 1"})
        if kind == "plug":
            wires.append({"from": far, "to": f"branch 2.{cavity}"})
        if kind == "splice":
            name = f"splice {len(splices) + 1}"
            splices.append({"name": name, "made": "crimp"})
            wires += [{"from": end, "to": name} for end in (near, far)]
            wires += [{"from": name, "to": "branch 1"}]
            if draw.random() < 0.5:
                wires += [{"from": name, "to": f"branch 2.{cavity}"}]
    return loom(wires, branches=branches, splices=splices), tuple(cuts)

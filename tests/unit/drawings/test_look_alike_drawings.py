"""Two plugs side by side: which difference is named first, and where the ring is."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from drawing_samples import (
    PINS,
    cavity_boxes,
    drawings_in,
    grid,
    housing,
    outside,
    overlapping,
    path_points,
    pin,
    plug,
    rect_box,
    text_boxes,
)
from markupsafe import Markup

from builder.model.housing import Housing
from builder.model.plugs import LookAlike, Plug
from builder.rendering.drawings import look_alikes

Rings = list[list[str]]


def ringed(markup: Markup) -> Rings:
    """Return for each drawing the cavities inside its rings."""
    found: Rings = []
    for drawing in drawings_in(markup):
        rings = [rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-ring"]
        found.append(
            [
                name
                for name, (x, y, w, h) in cavity_boxes(drawing).items()
                for rx, ry, rw, rh in rings
                if rx <= x and ry <= y and x + w <= rx + rw and y + h <= ry + rh
            ]
        )
    return found


def changed(cavity: str, *new: Any) -> tuple[Any, ...]:
    return tuple(p for p in PINS if p.cavity != cavity) + new


def test_cavity_count_comes_first() -> None:
    shown = look_alikes(grid(6, 2), plug(), grid(7, 2, latch="left"), plug("B", ()))
    assert "A has 12 cavities, B has 14" in shown
    assert ringed(shown) == [[], ["13"]]


@pytest.mark.parametrize(
    ("other", "said", "rings"),
    [
        (
            grid(6, 2, sizes={"5": 2.8}),
            "cavity 5 takes a 1.5 mm blade in A, 2.8 mm in B",
            [["5"], ["5"]],
        ),
        (grid(6, 2, row_shift=(0.0, 0.5)), "cavity 7 sits in another place", [["7"], ["7"]]),
        (grid(6, 2, latch="left"), "the latch of A is top, that of B left", [[], []]),
        (grid(6, 2, keyed_corner="top_left"), "cut corner of A, seen from the wires: none", None),
        (grid(6, 2, blocked=("3",)), "cavity 3 is moulded shut in B only", [["3"], ["3"]]),
    ],
)
def test_shells_are_told_apart_before_wires(other: Housing, said: str, rings: Rings | None) -> None:
    shown = look_alikes(grid(6, 2), plug(), other, plug("B", ()))
    assert said in shown
    assert all("lb-ring" in drawing for drawing in shown.split("<svg")[1:])
    if rings is not None:
        assert ringed(shown) == rings


def test_a_ringed_latch_has_the_ring_round_it() -> None:
    shown = look_alikes(grid(6, 2), plug(), grid(6, 2, latch="bottom"), plug("B"))
    for drawing in drawings_in(shown):
        ring = next(rect_box(r) for r in drawing.iter("rect") if r.get("class") == "lb-ring")
        for x, y in path_points(drawing, "lb-latch"):
            assert ring[0] <= x <= ring[0] + ring[2] and ring[1] <= y <= ring[1] + ring[3]


@pytest.mark.parametrize(
    ("latch", "other_latch", "corner", "over"),
    [
        ("top", "top", "top_left", "columns"),
        ("top", "bottom", "bottom_right", "rows"),
        ("right", "right", "bottom_right", "rows"),
        ("right", "left", "top_left", "columns"),  # held the other way up
    ],
)
def test_the_same_shell_recorded_from_either_face_is_no_difference(
    latch: str, other_latch: str, corner: str, over: str
) -> None:
    own = grid(6, 2, keyed_corner="top_right", latch=latch)
    rows = own.rows[::-1] if over == "rows" else tuple(row[::-1] for row in own.rows)
    changed = {"keyed_corner": corner, "latch": other_latch, "rows": rows}
    same = replace(own, seen_from="mating_side", **changed)
    assert "shows no difference" in look_alikes(own, plug(), same, plug("B"))
    other = replace(same, keyed_corner="top_right" if corner != "top_right" else None)
    assert "shows no difference" not in look_alikes(own, plug(), other, plug("B"))


@pytest.mark.parametrize(
    ("other", "said", "cavity"),
    [
        (plug("B", changed("3"), empty=("3", "6")), "A: orange/white wire; of B: empty", "3"),
        (plug("B", changed("7", pin("7", "ground", "brown"))), "black wire; of B: brown wire", "7"),
        (plug("B", changed("2", pin("2", "run", "red"))), "accessory; of B: run", "2"),
    ],
)
def test_wires_are_told_apart_when_shells_are_the_same(other: Plug, said: str, cavity: str) -> None:
    shown = look_alikes(housing(), plug(), housing(), other)
    assert said in shown
    assert ringed(shown) == [[cavity], [cavity]]


def test_what_can_be_seen_comes_before_what_can_not() -> None:
    pins = (*changed("1", pin("1", "run", "yellow/red"))[:-1], pin("11", "mute", "green"))
    assert "cavity 11 of A: blue/white wire" in look_alikes(
        housing(), plug(), housing(), plug("B", pins)
    )


def test_a_cavity_nobody_described_is_no_difference() -> None:
    shown = look_alikes(housing(), plug(), housing(), plug("B", PINS[:3], empty=()))
    assert "shows no difference" in shown
    assert ringed(shown) == [[], []]


@pytest.mark.parametrize("fits", ["yes", "no", "unknown"])
def test_whether_one_fits_is_said(fits: Any) -> None:
    other = plug("B", look_alikes=(LookAlike(plug="A", fits=fits, tell=()),))
    said = {"yes": "One goes into", "no": "does not go into", "unknown": "Nobody has tried"}[fits]
    assert said in look_alikes(housing(), plug(), housing(), other)
    assert said not in look_alikes(housing(), plug(), housing(), plug("B"))


def test_drawings_are_clear_of_collisions_and_ids_are_unique() -> None:
    shown = look_alikes(housing(), plug(), housing(latch="left"), plug("B"))
    drawings = drawings_in(shown)
    ids = [e.get("id") for drawing in drawings for e in drawing.iter() if e.get("id")]
    assert len(set(ids)) == len(ids) == 6  # of each drawing, its title and its description
    for drawing in drawings:
        assert overlapping(text_boxes(drawing)) == []
        assert outside(drawing, text_boxes(drawing)) == []

"""Numbers on the small map: each near its step, where no word and no other number stands."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from builder.rendering.drawings.canvas import Box, Point
from builder.rendering.drawings.wiring.scene import BADGE_R, Badge, Scene

STEP = 12.0
FURTHEST = 60  # steps


def put_badges(scene: Scene, size: Point, wanted: Sequence[Point]) -> None:
    """Put the numbers 1, 2, … on a map of a size, each as near as it can be to its place."""
    taken = [words.box for words in scene.words]
    for at, place in enumerate(wanted, 1):
        spot = _free(place, size, taken)
        scene.badges.append(Badge(str(at), spot))
        taken.append(_box(spot))


def _box(at: Point) -> Box:
    return at[0] - BADGE_R, at[1] - BADGE_R, 2 * BADGE_R, 2 * BADGE_R


def _free(place: Point, size: Point, taken: Sequence[Box]) -> Point:
    """Return the nearest free place, ring by ring; the wanted one where none is free."""
    edges = [(x, x + w, y, y + h) for x, y, w, h in taken]
    right, bottom = size[0] - BADGE_R, size[1] - BADGE_R
    for ring in range(FURTHEST + 1):
        for dx, dy in _on_ring(ring):
            x, y = place[0] + STEP * dx, place[1] + STEP * dy
            if BADGE_R <= x <= right and BADGE_R <= y <= bottom and _clear((x, y), edges):
                return x, y
    return place


@cache
def _on_ring(ring: int) -> tuple[tuple[int, int], ...]:
    """Return the steps to the places of a ring, from left to right, then from top to bottom."""
    return tuple(
        (dx, dy)
        for dx in range(-ring, ring + 1)
        for dy in range(-ring, ring + 1, 1 if abs(dx) == ring else 2 * ring)
    )


def _clear(at: Point, taken: Sequence[tuple[float, float, float, float]]) -> bool:
    """Whether a number stands on none of these: left, right, top, bottom. Asked many times."""
    left, top, wide, high = _box(at)
    right, bottom = left + wide, top + high
    for begins, ends, above, below in taken:
        if left < ends and begins < right and top < below and above < bottom:
            return False
    return True

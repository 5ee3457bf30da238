"""Numbers on the small map: each near its step, where no word and no other number stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count

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
    for ring in count():
        if ring > FURTHEST:
            return place
        for dx, dy in _on_ring(ring):
            at = (place[0] + STEP * dx, place[1] + STEP * dy)
            if _inside(at, size) and _clear(at, taken):
                return at
    return place


def _on_ring(ring: int) -> Iterator[tuple[int, int]]:
    """Yield the steps to the places of a ring, from left to right, then from top to bottom."""
    for dx in range(-ring, ring + 1):
        whole = abs(dx) == ring
        yield from ((dx, dy) for dy in range(-ring, ring + 1, 1 if whole else 2 * ring))


def _inside(at: Point, size: Point) -> bool:
    return all(BADGE_R <= value <= limit - BADGE_R for value, limit in zip(at, size, strict=True))


def _clear(at: Point, taken: Sequence[Box]) -> bool:
    x, y, w, h = _box(at)
    return not any(
        x < bx + bw and bx < x + w and y < by + bh and by < y + h for bx, by, bw, bh in taken
    )

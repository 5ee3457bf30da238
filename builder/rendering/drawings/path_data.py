"""Path data in few letters: relative, at a tenth of a unit, nothing said twice."""

from __future__ import annotations

from builder.rendering.drawings.canvas import Point


class PathData:
    """A path on its way. Places are of the view box; each is rounded by itself, so that nothing
    adds up."""

    def __init__(self) -> None:
        self._said: list[str] = []
        self._at: tuple[int, int] | None = None

    def move(self, to: Point) -> PathData:
        """Lift the pen and put it down elsewhere."""
        x, y = _tenths(to)
        if self._at is None:
            self._said.append(f"M{_joined(x, y)}")
        elif (x, y) != self._at:
            self._said.append(f"m{_joined(x - self._at[0], y - self._at[1])}")
        self._at = x, y
        return self

    def line(self, to: Point) -> PathData:
        """Draw a straight line; level and upright ones take one figure."""
        x, y = _tenths(to)
        dx, dy = x - self._here[0], y - self._here[1]
        if dy == 0:
            self._said.append(f"h{_joined(dx)}")
        else:
            self._said.append(f"v{_joined(dy)}" if dx == 0 else f"l{_joined(dx, dy)}")
        self._at = x, y
        return self

    def corner(self, corner: Point, to: Point) -> PathData:
        """Draw a rounded corner."""
        (cx, cy), (x, y), (left, top) = _tenths(corner), _tenths(to), self._here
        self._said.append(f"q{_joined(cx - left, cy - top, x - left, y - top)}")
        self._at = x, y
        return self

    @property
    def _here(self) -> tuple[int, int]:
        assert self._at is not None, "a path begins with a move"
        return self._at

    def __str__(self) -> str:
        return "".join(self._said)


def _tenths(point: Point) -> tuple[int, int]:
    return round(10 * point[0]), round(10 * point[1])


def _joined(*tenths: int) -> str:
    """Return figures one behind the other: a minus parts them as well as a blank."""
    said = ""
    for each in tenths:
        figure = _figure(each)
        said += figure if not said or figure[0] == "-" else f" {figure}"
    return said


def _figure(tenths: int) -> str:
    sign, whole, part = "-" if tenths < 0 else "", abs(tenths) // 10, abs(tenths) % 10
    return f"{sign}{whole or ''}.{part}" if part else f"{sign}{whole}"

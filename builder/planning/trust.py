"""How far each pin can be relied on: its grade, and whether a stop finding stands on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Protocol

from builder.findings import DataPath
from builder.model.house_defaults import HouseDefaults
from builder.model.plugs import FUSE_POSITIONS, PLUGS, Condition, FusePosition, Pin
from builder.model.vehicle import Vehicle
from builder.model.words import ALL, GRADE_BANDS, GradeBand
from builder.proof.grading.kept import kept_grade

RELIABLE: frozenset[GradeBand] = frozenset({"proven", "good"})
"""Asked of a turn-on source and of a pair that is broken."""

LISTENING: frozenset[GradeBand] = frozenset({"proven", "good", "check first"})
"""Asked of a pair that is only listened to."""


class GradeLike(Protocol):
    """What planning needs of a grade."""

    @property
    def band(self) -> GradeBand:
        """How far the pin can be relied on."""

    @property
    def why(self) -> str:
        """Why the grade is what it is."""

    @property
    def raise_by(self) -> str:
        """What would raise it."""


GradeOf = Callable[[Vehicle, Pin], GradeLike]


def worst_band(bands: Iterable[GradeBand]) -> GradeBand:
    """Return the least trusted of the bands; "unproved" when there is none."""
    return max(bands, key=GRADE_BANDS.index, default="unproved")


def blocks(barred: DataPath, path: DataPath) -> bool:
    """Whether a finding at `barred` bars what stands at `path`: above it, at it or under it."""
    shared = min(len(barred), len(path))
    return barred[:shared] == path[:shared]


class Trust:
    """Grades and bars of one vehicle, each grade worked out at most once."""

    def __init__(self, vehicle: Vehicle, grade: GradeOf, barred: Mapping[DataPath, str]) -> None:
        self.vehicle = vehicle
        self._grade = grade
        self._barred = barred
        self._grades: dict[DataPath, GradeLike] = {}

    def grade(self, pin: Pin) -> GradeLike:
        """The grade of a pin."""
        if pin.path not in self._grades:
            self._grades[pin.path] = self._grade(self.vehicle, pin)
        return self._grades[pin.path]

    def bar(self, path: DataPath) -> str | None:
        """Why what stands at `path` must not be used, or None."""
        return next((why for at, why in self._barred.items() if blocks(at, path)), None)

    @property
    def whole_vehicle_bar(self) -> str | None:
        """Why nothing of this vehicle may be used, or None."""
        return next((why for at, why in self._barred.items() if not _is_of_one_pin(at)), None)


def _is_of_one_pin(path: DataPath) -> bool:
    return bool(path) and path[0] in (PLUGS, FUSE_POSITIONS)


def position_as_pin(position: FusePosition) -> Pin:
    """Return a fuse position in the shape of a pin, so that both are graded by the same rule."""
    return Pin(
        cavity=position.position,
        function=position.function,
        channel=None,
        leg=None,
        wire=None,
        fuse=None,
        max_source_ma=None,
        level_v=None,
        only_if=None,
        readings=position.readings,
        claims=(),
        note=None,
        path=position.path,
    )


def holds_for_whole_scope(vehicle: Vehicle, condition: Condition | None) -> bool:
    """Whether a line with this condition is true of every car of the record."""
    if condition is None:
        return True
    scope = vehicle.scope
    trims = not condition.trims or (
        ALL not in scope.trims and set(scope.trims) <= set(condition.trims)
    )
    has = not condition.options_any or (
        len(scope.options_any) > 0 and set(scope.options_any) <= set(condition.options_any)
    )
    return trims and has and set(condition.options_none) <= set(scope.options_none)


def grade_by_readings(defaults: HouseDefaults) -> GradeOf:
    """Return the grading by the record's readings."""
    return lambda vehicle, pin: kept_grade(vehicle, pin, defaults)

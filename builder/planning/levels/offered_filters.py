"""What a channel's own controls make of a starting value: how far they go, how steep they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from builder.figures import shown
from builder.model.parts.filters import Filters, FilterSpan
from builder.planning.levels.starting_filters import EASY_DB, STEEP_DB
from builder.planning.plan import Reason
from builder.planning.tables import COMMON_PRACTICE
from builder.units import Hertz

Corner = Hertz | None
FilterName = Literal["high-pass", "low-pass", "subsonic"]


@dataclass(frozen=True, slots=True)
class Offered:
    """The controls of a channel; `filters` None where no record says what they are."""

    device: str
    filters: Filters | None

    @property
    def source(self) -> str:
        """Whose record is spoken of."""
        return f"the record of {self.device}"

    def slope(self) -> tuple[int, Reason]:
        """Return the slope to begin with: the steepest up to what keeps two bands in step."""
        if self.filters is None:
            because = "its record does not say how steep they are; set the nearest that it has"
            return EASY_DB, Reason(f"slope {EASY_DB} dB an octave", because, COMMON_PRACTICE)
        slopes = self.filters.slopes_db_per_octave
        fitting = max((each for each in slopes if each <= STEEP_DB), default=min(slopes))
        because = f"of what it has, the steepest up to {STEEP_DB} dB an octave"
        return fitting, Reason(f"slope {fitting} dB an octave", because, self.source)

    def within(self, name: FilterName, corner: Corner) -> tuple[Corner, Reason | None]:
        """Return a corner as far as the control goes, and what to say where it does not reach."""
        if corner is None or self.filters is None:
            return corner, None
        span = self._span(name)
        if span is None:
            because = f"{shown(corner)} Hz is wanted, and it has no {name} filter"
            return None, Reason(f"{name} off", because, self.source)
        nearest = min(max(corner, span.from_hz), span.to_hz)
        if nearest == corner:
            return corner, None
        because = (
            f"{shown(corner)} Hz is wanted, its control goes from {shown(span.from_hz)} to "
            f"{shown(span.to_hz)} Hz"
        )
        return nearest, Reason(f"{name} {shown(nearest)} Hz", because, self.source)

    def _span(self, name: FilterName) -> FilterSpan | None:
        assert self.filters is not None
        spans: dict[FilterName, FilterSpan | None] = {
            "high-pass": self.filters.high_pass,
            "low-pass": self.filters.low_pass,
            "subsonic": self.filters.subsonic,
        }
        return spans[name]

"""Two bands that are joined, by what a recording of both says of their sum."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from builder.figures import shown
from builder.model.parts import Converter
from builder.model.recorded_sound import RecordedBetween
from builder.model.sound import SpeakerChannel
from builder.proof.recorded_facts import worst_of
from builder.units import Decibels, Hertz

MOST_LOST_DB: Final = 3.0
"""As much as a delay of 1/(4·f) takes away at its crossover. Chosen by this project."""


@dataclass(frozen=True, slots=True)
class RecordedSum:
    """What joining takes away at most: where, how much, and by which recording.

    `waits` says that the converter makes the delay good, `turned` that the legs of one pair change
    places for that.
    """

    worst_hz: Hertz
    lost_db: Decibels
    waits: bool
    turned: bool
    source: str

    @property
    def holds(self) -> bool:
        """Whether it may be joined, unrounded."""
        return self.lost_db >= -MOST_LOST_DB

    @property
    def words(self) -> str:
        """The loss with its place, and what it takes: "-1.2 dB at 2500 Hz at most …"."""
        lost = shown(self.lost_db, 1, beside=-MOST_LOST_DB)
        step = ", once the delay between them is made good" if self.waits else ""
        turn = " and the legs of one change places" if self.turned else ""
        return (
            f"{lost} dB at {shown(self.worst_hz, 0)} Hz is the most that their sum loses{step}"
            f"{turn}, worked out from both responses; the limit is -{shown(MOST_LOST_DB)} dB "
            f"({self.source})"
        )


def recorded_sum(
    one: SpeakerChannel | None, other: SpeakerChannel | None, converter: Converter
) -> RecordedSum | None:
    """Return what a recording of two pairs together says of their sum; None without one."""
    two = _together(one, other)
    if one is None or one.heard is None or two is None:
        return None
    can_delay = converter.delay_adjust == "yes" and bool(two.in_step)
    worst = worst_of(two, can_delay=can_delay)
    if worst is None:
        return None
    turned = can_delay and two.in_step_turned == "yes"
    return RecordedSum(*worst, can_delay, turned, one.heard.source)


def _together(one: SpeakerChannel | None, other: SpeakerChannel | None) -> RecordedBetween | None:
    if one is None or other is None or one.heard is None:
        return None
    return one.heard.beside.get(other.channel)

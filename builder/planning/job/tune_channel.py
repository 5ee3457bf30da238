"""One channel's filters: what a job states goes before a starting value, within what there is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from builder.figures import shown
from builder.model.job import JobSpeaker
from builder.model.job.filters import Corner, SetFilters, Turned
from builder.model.sound import SpeakerChannel
from builder.planning.levels.filter_loss import FilterSet
from builder.planning.levels.offered_filters import FilterName, Offered
from builder.planning.levels.starting_filters import (
    Part,
    Start,
    high_pass,
    low_pass,
    subsonic,
)
from builder.planning.plan import Reason
from builder.planning.tables import JOB_RECORD

STATED = JOB_RECORD
WHICH_BOX: Final = "which box it sits in"
"""What is asked of a subwoofer whose box nobody described."""


@dataclass(frozen=True, slots=True)
class TunedChannel:
    """A channel with the filters it begins with, before its polarity and delay are settled."""

    speaker: JobSpeaker
    part: Part
    offered: Offered
    filters: FilterSet
    because: tuple[Reason, ...]
    asked: tuple[str, ...]
    polarity: Turned = "normal"
    delay_ms: float = 0.0
    delay_at: str = ""

    @property
    def slope_db_per_octave(self) -> int:
        """How steep its filters are. [dB/octave]"""
        return self.filters.slope_db_per_octave


def tuned_channel(
    speaker: JobSpeaker,
    part: Part,
    carries: SpeakerChannel | None,
    offered: Offered,
    *,
    with_sub: bool,
) -> TunedChannel:
    """Return the filters of a channel; `with_sub` says that a subwoofer plays beside it."""
    stated = speaker.filters or SetFilters()
    starts: dict[FilterName, Start | None] = {
        "high-pass": _stated("high-pass", stated.high_pass_hz)
        or high_pass(part, carries, with_sub=with_sub),
        "low-pass": _stated("low-pass", stated.low_pass_hz) or low_pass(part, carries),
        "subsonic": _stated("subsonic", stated.subsonic_hz) or subsonic(speaker, part),
    }
    corners: dict[FilterName, float | None] = {}
    because: list[Reason] = []
    for name, start in starts.items():
        corners[name], short = offered.within(name, start.hz if start else None)
        because += [each for each in (start.because if start else None, short) if each]
    slope, why = offered.slope()
    if stated.slope_db_per_octave is not None:
        slope = stated.slope_db_per_octave
        why = Reason(f"slope {slope} dB an octave", "the job says so", STATED)
    filters = FilterSet(corners["high-pass"], corners["low-pass"], corners["subsonic"], slope)
    asked = tuple(_asked(speaker, part, starts["subsonic"], filters))
    return TunedChannel(speaker, part, offered, filters, (*because, why), asked)


def _stated(name: FilterName, corner: Corner | None) -> Start | None:
    if corner is None:
        return None
    hz = None if corner == "off" else corner
    decision = f"{name} off" if hz is None else f"{name} {shown(hz)} Hz"
    return Start(hz, Reason(decision, "the job says so", STATED))


def _asked(speaker: JobSpeaker, part: Part, below: Start | None, filters: FilterSet) -> list[str]:
    """What has to be found out or fitted before the channel may be loud."""
    asked = []
    if below is None:
        what = "what its box is tuned to" if speaker.box else WHICH_BOX
        asked.append(f"{what}: without it no subsonic corner can be given")
    if part == "high" and filters.high_pass_hz is None:
        asked.append("no high-pass before a tweeter: fit one, or a capacitor, before any tone")
    return asked

"""How long a channel is held back at first, so that all sound arrives together at the head."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from builder.figures import shown
from builder.model.job import JobSpeaker
from builder.model.parts import Converter
from builder.model.sound import SpeakerChannel
from builder.planning.job.tune_channel import STATED, TunedChannel
from builder.planning.plan import Reason
from builder.planning.tables import RECORD, SOUND_M_S
from builder.planning.tune_sheet import HeldBack
from builder.units import Metres, Milliseconds, require_not_negative

BY_EAR = "the ear decides in the end"


@dataclass(frozen=True, slots=True)
class Arrivals:
    """When the sound of each speaker is at the listener's head, counted from one moment.

    `late_ms` is by how much the car plays the pairs of each speaker late, by its name. Ways through
    the air count where every speaker has one.
    """

    late_ms: Mapping[str, Milliseconds]
    ear_m: Mapping[str, Metres]

    def of(self, speaker: str) -> Milliseconds:
        """Return when the sound of a speaker arrives. [ms]"""
        return self.late_ms[speaker] + flight_ms(self.ear_m.get(speaker, 0.0))

    @property
    def last(self) -> str:
        """The speaker that is heard last."""
        return max(self.late_ms, key=self.of)


def flight_ms(distance_m: Metres) -> Milliseconds:
    """Return how long sound takes through air of 20 °C, s/c. [ms]

    Raises:
        ValueError: less than no distance.

    >>> round(flight_ms(1.0), 3)
    2.914
    """
    return 1000 * require_not_negative("distance_m", distance_m) / SOUND_M_S


def arrivals_of(
    speakers: Sequence[JobSpeaker], carried: Mapping[str, list[SpeakerChannel | None]]
) -> Arrivals:
    """Return when each speaker is heard; `carried` are the pairs that it plays, by its name."""
    late = {
        name: max((each.delay_ms or 0.0 for each in pairs if each), default=0.0)
        for name, pairs in carried.items()
    }
    ways = {each.name: each.ear_m for each in speakers if each.ear_m is not None}
    return Arrivals(late, ways if len(ways) == len(late) else {})


def delayed(made: TunedChannel, arrivals: Arrivals, converter: Converter) -> TunedChannel:
    """Return a channel with its delay: as the job says, or until the last one is heard."""
    where, most = _where(made, converter)
    stated = made.speaker.filters
    if stated is not None and stated.delay_ms is not None:
        said = Reason(f"delay {stated.delay_ms:g} ms", "the job says so", STATED)
        return replace(made, delay_ms=stated.delay_ms, delay_at=where or made.offered.device,
                       because=(*made.because, said))  # fmt: skip
    own, last = made.speaker.name, arrivals.last
    wait = round(arrivals.of(last) - arrivals.of(own), 2)
    if where == "" or wait <= 0:
        return made
    delay = wait if most is None else min(most, wait)
    said = Reason(
        f"delay {shown(delay)} ms", _because(arrivals, own, wait, delay), _source(arrivals)
    )
    return replace(made, delay_ms=delay, delay_at=where, because=(*made.because, said))


def _where(made: TunedChannel, converter: Converter) -> tuple[str, Milliseconds | None]:
    """What can hold a channel back, and by how much at most; a converter's own is not recorded."""
    offered = made.offered.filters
    if offered is not None and offered.delay_max_ms is not None:
        return made.offered.device, offered.delay_max_ms
    return (converter.name, None) if converter.delay_adjust == "yes" else ("", None)


def _because(arrivals: Arrivals, own: str, wait: Milliseconds, delay: Milliseconds) -> str:
    last = arrivals.last
    said = f"{last} is heard last, {shown(arrivals.of(last), 2)} ms after the radio's first pair"
    said += f", this one {shown(arrivals.of(own), 2)} ms"
    if arrivals.ear_m:
        said += (
            f"; {shown(arrivals.ear_m[own], 2)} m of air against "
            f"{shown(arrivals.ear_m[last], 2)} m, {SOUND_M_S:g} m/s at 20 °C"
        )
    if delay < wait:
        said += f"; {shown(wait)} ms are asked for and it can do no more"
    return f"{said}; {BY_EAR}"


def _source(arrivals: Arrivals) -> str:
    return "ISO 9613-1 (memory), and the job's distances" if arrivals.ear_m else RECORD


def held_back(pairs: Sequence[SpeakerChannel | None], converter: Converter) -> tuple[HeldBack, ...]:
    """Return how long each of several pairs that are added waits for the latest of them.

    Delays count from the quickest pair of a side, so that one without a figure is not late. Nothing
    where none is late, or where the converter cannot.
    """
    known = [each for each in pairs if each is not None]
    if converter.delay_adjust != "yes" or len(known) < max(2, len(pairs)):
        return ()
    latest = max(each.delay_ms or 0.0 for each in known)
    waits = [HeldBack(each.channel, round(latest - (each.delay_ms or 0.0), 2)) for each in known]
    return tuple(each for each in waits if each.delay_ms > 0)

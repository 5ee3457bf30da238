"""The acts in which something is set by hand before anything is powered."""

from __future__ import annotations

from collections.abc import Iterator

from builder.planning.bay.tune_words import correction_words
from builder.planning.car.kept_sounds import microphones_out
from builder.planning.circuit.model import Link
from builder.planning.course import trade
from builder.planning.course.car_states import GAINS
from builder.planning.course.converter_settings import converter_settings
from builder.planning.course.job_acts import JobWork, act
from builder.planning.course.model import Act, Said
from builder.planning.tune_sheet import TuneRow


def setting_acts(work: JobWork) -> Iterator[Act]:
    """Yield what is set by hand before anything is powered: switches, gains, microphones."""
    switched: dict[tuple[str, str], list[Link]] = {}
    for link in work.index.circuit.links:
        if link.set_by:
            unit = work.index.unit_of(link.begins).id
            switched.setdefault((unit, link.set_by), []).append(link)
    for (unit, setting), links in switched.items():
        said = Said(f"set a switch of {unit}: {setting}", tuple(link.purpose for link in links))
        yield _set(f"switch {unit} {setting}", said, tuple(link.id for link in links))
    parts = work.parts
    for name, said in converter_settings(work.bay):
        yield _set(name, said)
    for speaker in parts.job.speakers:
        if speaker.driven_by.bridged_with is not None:
            text = _BRIDGED.format(speaker.amplifier, speaker.channel_name)
            yield _set(f"bridge {speaker.name}", Said(text))
    if microphones_out(parts.vehicle, work.bay.selection):
        yield _set("microphones", Said(_MICROPHONES))
    yield act(
        "gains least", "build",
        Said("all gains at their lowest, amplifier filters flat, equaliser off, "
             f"{_correction(work.bay.tune)}"),
        trade.LEAST, does={GAINS: "least"}, minutes=3.0,
    )  # fmt: skip


def _set(id: str, said: Said, sets: tuple[str, ...] = ()) -> Act:
    return act(id, "build", said, trade.SET, sets=sets, minutes=1.0)


_BRIDGED = (
    "{0}, channels {1}: bridge switch on, the speaker on the two terminals that it marks for it"
)
_MICROPHONES = (
    "noise cancellation: unplug its microphones, close their plugs off and write down where each "
    "one is; it was tuned for the car's own bass"
)


def _correction(tune: tuple[TuneRow, ...]) -> str:
    """Gains hold with the correction as it will be used, so it stands so from the beginning."""
    used = any(row.correction == "on" for row in tune)
    return correction_words(tune) + (" and left on, it is used so" if used else "")

"""The acts in which power comes, and the filters that stand before anything is loud."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.planning.bay.tune_words import tune_words
from builder.planning.course import trade
from builder.planning.course.car_states import DEAD, FILTERS, MAIN_FUSE
from builder.planning.course.job_acts import JobWork, act
from builder.planning.course.model import Act, Said, among, needs
from builder.planning.tune_sheet import TuneRow
from builder.planning.views.names import side_fuses
from builder.planning.words import HowItStands

_LAMP = (
    "first a 21 W lamp across the holder of the main fuse: a brief glow is capacitors that fill, "
    "a steady glow is a short; then the main fuse in"
)


def power_acts(work: JobWork) -> Iterator[Act]:
    """Yield how the fuses go in, the main one last and behind a lamp."""
    lines = tuple(f"{x.purpose}: {x.rating}; place: {x.place}" for x in side_fuses(work.index))
    if lines:
        said = Said("every fuse but the main one into its holder", lines)
        yield act(
            "side fuses", "build", said, trade.SIDE_FUSES, wanted={**DEAD, **work.open}, minutes=1.0
        )
    if MAIN_FUSE in work.index.elements:
        wanted = {**needs(battery="on", key="off"), **work.open, MAIN_FUSE: ABSENT}
        yield act(
            "main fuse in", "bench", Said(_LAMP, gate="no steady glow"), trade.MAIN_IN,
            wanted=wanted, does={MAIN_FUSE: "in"}, minutes=3.0,
        )  # fmt: skip


ABSENT = among("absent")


def held_words(tune: Sequence[TuneRow]) -> str:
    """Return what is to be found out before anything is loud, and of which speaker."""
    asked = [f"{row.speaker}: {each}" for row in tune for each in row.asked]
    return f"nothing loud before this is settled: {'; '.join(asked)}" if asked else ""


def tune_acts(work: JobWork) -> Iterator[Act]:
    """Yield the filters; what nobody said is asked before anything is loud."""
    tune, house = work.bay.tune, work.bay.defaults
    if tune:
        lines = tuple(tune_words(row) for row in tune)
        said = Said("set the filters; nothing loud before this is done", lines)
        minutes = len(tune) * house.hand_filter_min
        does: dict[str, HowItStands] = {FILTERS: "set"}
        yield act("filters", "bench", said, trade.FILTERS, does=does, minutes=minutes)
    for row in tune:
        for asked in row.asked:
            said = Said(f"{row.speaker}: nothing loud yet", blocked=asked)
            yield act(f"asked {row.speaker} {asked}", "bench", said, trade.FILTERS)
